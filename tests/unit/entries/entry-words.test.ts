import { describe, expect, it } from 'vitest';
import { entryWords } from '@/app/(tablet)/round/_lib/entry-words';
import { fahrenheitToKelvin } from '@/lib/core/measures';
import { ENTRY_VERSION, type Entry, type EntryKind, type Payloads, type VisitOnFile } from '@/lib/core/tablet';

const AT = '2026-11-25T16:05:00.000Z';
const visit = {
  kitchen: { utcOffsetMinutes: -420 },
  tasks: [{ taskId: 't1', unitId: 'u1', label: 'Coil cleaning' }],
} as unknown as VisitOnFile;
const about = {
  visit,
  unitName: (id: string) => (id === 'u1' ? 'Fry line' : 'a unit'),
  me: { temperatureUnit: 'F', pressureUnit: 'psig', massUnit: 'oz' } as const,
};
const said = <K extends EntryKind>(kind: K, payload: Payloads[K], of: Parameters<typeof entryWords>[1] = about, version = ENTRY_VERSION) =>
  entryWords({ id: 'e1', seq: 1, kind, version, visitId: 'v1', madeAt: AT, basedOn: AT, payload } as Entry, of);

const READING: Payloads['reading.add'] = {
  unitId: 'u1',
  phase: 'before',
  values: { headPaGauge: 1_227_000, airInK: 303.15, boxK: 277 },
  entered: { headPaGauge: { text: '178', unit: 'psig' }, airInK: { text: '86.0', unit: '°F' }, boxK: { text: '-4', unit: '°C' } },
  questioned: [{ field: 'airInK', question: 'Is that so?', answer: 'Looked twice.' }],
  gaugeGrade: 'A',
  gaugeSpanPa: 3.4e6,
  replaces: null,
};

describe('what an entry says', () => {
  it('is a reading’s numbers as they were typed, with their unit and what was answered', () => {
    expect(said('reading.add', READING)).toBe(
      'Fry line: before cleaning, head pressure 178 psig, air into the coil 86.0 °F, box −4 °C. Is that so? Looked twice.',
    );
    expect(said('reading.add', { ...READING, entered: {}, questioned: [], values: { airInK: fahrenheitToKelvin(86.5) } })).toBe(
      'Fry line: before cleaning, air into the coil 86.5 °F',
    );
  });

  it.each([
    [said('visit.start', { arrivedAt: AT }), 'arrived 09:05'],
    [said('visit.close', { leftAt: AT, taskIds: [] }), 'left 09:05'],
    [said('finding.set', { unitId: 'u1', aspect: 'coil', phase: 'left', grade: 'matted', notLookedWhy: '', note: 'Bent fins', replaces: null }), 'Fry line: condenser coil, as left, matted. Bent fins'],
    [said('finding.set', { unitId: 'u2', aspect: 'drain', phase: 'found', grade: null, notLookedWhy: 'Riveted shut', note: '', replaces: null }), 'a unit: drain and pan, on arrival, not looked at because: Riveted shut'],
    [said('unit.outcome', { unitId: 'u1', outcome: 'could_not_reach', reason: 'Blocked by stock' }), 'Fry line: could not reach. Blocked by stock'],
    [said('unit.add', { unitId: 'u9', name: 'Bar fridge', kind: 'undercounter', make: 'Acme', model: 'B1', serial: '', refrigerant: 'R290', chargeKg: null, application: 'medium', expansion: 'capillary', circuitAccess: 'sealed', condenserKind: 'fin_and_tube', placement: 'bar', notes: '' }), expect.stringMatching(/^Bar fridge, Undercounter, Bar, R-290, temperature Medium temperature, .*Acme, B1$/)],
    [said('task.done', { taskId: 't1' }), 'Coil cleaning of Fry line'],
    [said('task.not_done', { taskId: 't1', reason: 'Locked' }), 'Coil cleaning of Fry line. Locked'],
    [said('task.done', { taskId: 'gone' }), 'a task that is not on this tablet'],
    [said('photo.attach', { unitId: 'u1', aspect: null, phase: 'after', sha256: 'a', bytes: 1, takenAt: AT }), 'Fry line: whole unit, after cleaning'],
    [said('signature.set', { nobodyThere: true, signedBy: '', png: null }), 'nobody there'],
    [said('signature.set', { nobodyThere: false, signedBy: 'Ines Halloran', png: 'AA==' }), 'signed by Ines Halloran'],
    [said('part.use', { unitId: null, what: 'Fan motor', quantity: 2 }), 'Fan motor, × 2'],
    [said('follow_up.add', { unitId: 'u1', what: 'New gasket', urgency: 'next', note: '' }), 'Fry line: New gasket, at the next visit'],
    [said('job.outcome', { jobId: 'gone', outcome: 'needs_part', note: 'Fan motor' }), 'a job that is not on this tablet, needs a part. Fan motor'],
    [said('food_warning.add', { unitId: 'u1', boxK: fahrenheitToKelvin(47), toldTo: 'Ines', toldAt: AT, note: '' }), 'Fry line: 47 °F, told to Ines, at 09:05'],
    [
      said('event.add', { unitId: 'u1', kind: 'high_pressure_trip', at: AT, note: 'Twice', cause: 'fan' }),
      'Fry line: high-pressure trip, behind it: condenser fan, 09:05. Twice',
    ],
    [said('entry.strike', { what: 'follow_up', entryId: 'e0', why: 'Entered by mistake' }), 'a follow-up. Entered by mistake'],
  ])('%s', (said, expected) => expect(said).toEqual(expected)); // prettier-ignore

  it('tells an entry of an older tablet as it is read today', () => {
    const old = { unitId: 'u1', aspect: 'fan', phase: 'found', grade: 'failed', notLookedWhy: '', note: 'Hums', replaces: null };
    expect(said('finding.set', old as unknown as Payloads['finding.set'], about, 2)).toBe(
      'Fry line: condenser fan, on arrival, failed. Hums Graded as “Fans”, before the condenser’s and the evaporator’s were told apart.',
    );
  });

  it('needs no visit: the tablet may have let go of it', () => {
    expect(said('reading.add', READING, { ...about, visit: undefined })).toContain('head pressure 178 psig');
    expect(said('visit.start', { arrivedAt: AT }, { ...about, visit: undefined })).toMatch(/^arrived \d\d:05$/);
  });

  it('is nothing, and breaks nothing, where the content cannot be read', () => {
    expect(said('reading.add', {} as Payloads['reading.add'])).toBe('');
    expect(said('finding.set', { aspect: 'roof', grade: 'odd' } as unknown as Payloads['finding.set'])).toBe('roof, odd');
  });
});
