import { describe, expect, it } from 'vitest';
import { typedLines } from '@/lib/core/entries/words';
import { dayIn, timeIn } from '@/lib/core/calendar/when';
import { ENTRY_LABEL, type Payloads } from '@/lib/core/tablet';

const unitId = '0b3c8a52-0000-4000-8000-000000000001';
const reader = {
  units: { temperature: 'F', pressure: 'psig', mass: 'oz' },
  moment: (ms: number) => `${dayIn(ms, 'America/Denver')} ${timeIn(ms, 'America/Denver')}`,
  name: (id: string) => (id === unitId ? 'Fry line drawers' : undefined),
} as const;
const linesOf = (kind: string, payload: unknown) => typedLines(kind, payload, reader);
const at = '2026-11-25T15:05:00.000Z';

const EVERY: { [K in keyof Payloads]: Payloads[K] } = {
  'visit.start': { arrivedAt: at },
  'finding.set': { unitId, aspect: 'coil', phase: 'found', grade: 'matted', notLookedWhy: '', note: 'Greasy', replaces: null },
  'reading.add': {
    unitId,
    phase: 'before',
    values: { headPaGauge: 1_723_689, airInK: 305.37 },
    entered: { headPaGauge: { text: '250', unit: 'psig' } },
    gaugeGrade: '1A',
    gaugeSpanPa: 3_447_379,
    questioned: [{ field: 'airInK', question: 'Is that the air at the coil?', answer: 'It is.' }],
    replaces: null,
  },
  'unit.outcome': { unitId, outcome: 'could_not_reach', reason: 'Locked' },
  'unit.add': {
    unitId: '0b3c8a52-0000-4000-8000-000000000009', name: 'Bar fridge', kind: 'undercounter', make: 'Holm', model: '', serial: '', refrigerant: 'R290', chargeKg: 0.15, application: 'medium',
    expansion: 'capillary', circuitAccess: 'sealed', condenserKind: 'fin_and_tube', placement: 'bar', notes: '',
  },
  'task.take': { taskId: unitId, unitId },
  'task.done': { taskId: unitId },
  'task.not_done': { taskId: unitId, reason: 'No time' },
  'photo.attach': { unitId, aspect: 'coil', phase: 'after', sha256: 'a'.repeat(64), bytes: 204_800, takenAt: at },
  'signature.set': { nobodyThere: false, signedBy: 'R. Chef', png: 'iVBORw0KGgoAAAA=' },
  'part.use': { unitId, what: 'Fan belt', quantity: 2 },
  'follow_up.add': { unitId, what: 'New gasket', urgency: 'quote', note: '' },
  'job.outcome': { jobId: unitId, outcome: 'needs_part', note: 'Fan motor' },
  'food_warning.add': { unitId, boxK: 285.93, toldTo: 'Chef', toldAt: at, note: '' },
  'sealed.step': {
    recordId: '0b3c8a52-0000-4000-8000-000000000008', unitId, step: 'recover', skippedWhy: '', certificateId: null, overruledBy: 'R. Boss', overruledWhy: 'Course is next week', note: 'Slow',
    work: { step: 'recover', cylinderId: null, cylinderWords: 'grey one', startKg: 5, endKg: 5.2, levelPaGauge: -80_000, recoveredFor: 'reclaim' },
  },
  'event.add': { unitId, kind: 'fan_replaced', at, note: 'Old one seized', cause: null },
  'entry.strike': { what: 'part', entryId: unitId, why: 'Wrong unit' },
  'visit.close': { leftAt: at, taskIds: [unitId] },
}; // prettier-ignore

describe('an entry in words', () => {
  it.each(Object.entries(EVERY))('%s is told whole', (kind, payload) => {
    const { lines, whole } = linesOf(kind, payload);
    expect(whole).toBe(true);
    expect(lines.length).toBeGreaterThan(0);
    expect(lines.map(([label]) => label)).not.toContain('');
    expect(lines.flat().join(' ')).not.toMatch(/[{}]|undefined|null|[0-9a-f]{8}-/);
  });

  it('knows every kind of entry', () => {
    expect(Object.keys(EVERY).sort()).toEqual(Object.keys(ENTRY_LABEL).sort());
  });

  it('tells a reading as it was typed, and converts what was not sent as typed', () => {
    expect(linesOf('reading.add', EVERY['reading.add']).lines).toEqual([
      ['When', 'before cleaning'],
      ['Head pressure', '250 psig'],
      ['Air into the coil', '90 °F'],
      ['Gauge grade', '1A'],
      ['Gauge span', '500 psig'],
      ['Asked about air into the coil', 'Is that the air at the coil? It is.'],
    ]);
  });

  it('tells times by the kitchen’s clock and a charge in the reader’s unit', () => {
    expect(linesOf('visit.start', EVERY['visit.start']).lines).toEqual([['Arrived', 'Wed 25 Nov 08:05']]);
    expect(linesOf('unit.add', EVERY['unit.add']).lines).toContainEqual(['Charge', '5.29 oz']);
  });

  it('tells a grade that does not exist as it was written, and a unit that is not on file', () => {
    const { lines, whole } = linesOf('finding.set', {
      ...EVERY['finding.set'],
      unitId: '0b3c8a52-0000-4000-8000-000000000002',
      grade: 'sparkling',
    });
    expect(whole).toBe(true);
    expect(lines).toContainEqual(['Grade', 'sparkling']);
    expect(lines).toContainEqual(['Unit', 'not on file']);
  });

  it('says where there are no words for something, and tells the rest', () => {
    expect(linesOf('part.use', { what: 'Belt', quantity: 'two' })).toEqual({ lines: [['Part', 'Belt']], whole: false });
    expect(linesOf('part.use', { what: 'Belt', colour: 'red' }).whole).toBe(false);
    expect(linesOf('reading.add', { values: { airInK: 300, humidity: 4 }, entered: {} })).toEqual({
      lines: [['Air into the coil', '80.3 °F']],
      whole: false,
    });
    expect(linesOf('reading.add', { values: { airInK: '300' } })).toEqual({ lines: [], whole: false });
    expect(linesOf('reading.add', { questioned: [{ field: 'airInK' }] }).whole).toBe(false);
    expect(linesOf('visit.start', { arrivedAt: 'this morning' }).whole).toBe(false);
    for (const odd of ['words', 7, ['x']]) expect(linesOf('part.use', odd)).toEqual({ lines: [], whole: false });
    expect(linesOf('dance.add', { what: 'x' })).toEqual({ lines: [], whole: false });
    expect(linesOf('part.use', null)).toEqual({ lines: [], whole: true });
  });
});
