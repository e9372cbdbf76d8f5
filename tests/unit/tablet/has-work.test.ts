import { describe, expect, it } from 'vitest';
import { foldVisit, hasWork, ENTRY_VERSION, type Entry, type EntryKind, type Payloads, type VisitOnFile } from '@/lib/core/tablet';
import { aVisit } from './support/office';

const AT = '2026-11-25T16:30:00.000Z';
const untouched: VisitOnFile = {
  ...aVisit('v1'),
  tasks: [{ taskId: 't1', unitId: 'u1', kindKey: 'coil_cleaning', label: 'Coil cleaning', minutes: 30, lowSide: true, dueOn: '2026-11-25', outcome: 'planned', reason: '' }],
}; // prettier-ignore

const WRITTEN: Omit<Payloads, 'unit.add' | 'task.take' | 'entry.strike'> = {
  'visit.start': { arrivedAt: AT },
  'visit.close': { leftAt: AT, taskIds: [] },
  'finding.set': { unitId: 'u1', aspect: 'coil', phase: 'found', grade: 'matted', notLookedWhy: '', note: '', replaces: null },
  'reading.add': { unitId: 'u1', phase: 'before', values: { airInK: 303 }, gaugeGrade: null, gaugeSpanPa: null, entered: {}, questioned: [], replaces: null },
  'unit.outcome': { unitId: 'u1', outcome: 'gone', reason: 'Sold' },
  'task.done': { taskId: 't1' },
  'task.not_done': { taskId: 't1', reason: 'Locked' },
  'photo.attach': { unitId: 'u1', aspect: null, phase: 'before', sha256: 'a', bytes: 1, takenAt: AT },
  'signature.set': { nobodyThere: true, signedBy: '', png: null },
  'part.use': { unitId: null, what: 'Fan motor', quantity: 1 },
  'follow_up.add': { unitId: 'u1', what: 'New gasket', urgency: 'next', note: '' },
  'job.outcome': { jobId: 'j1', outcome: 'done', note: '' },
  'food_warning.add': { unitId: 'u1', boxK: 281, toldTo: 'Ines', toldAt: AT, note: '' },
  'sealed.step': { recordId: 'r1', unitId: 'u1', step: 'open', work: null, skippedWhy: 'Ports', certificateId: null, overruledBy: '', overruledWhy: '', note: '' },
  'event.add': { unitId: 'u1', kind: 'note', at: AT, note: 'Humming', cause: null },
}; // prettier-ignore

const entry = <K extends EntryKind>(kind: K, payload: Payloads[K], id = 'e1') =>
  ({ id, seq: 1, kind, version: ENTRY_VERSION, visitId: 'v1', madeAt: AT, basedOn: AT, payload }) as Entry;

describe('work on a visit', () => {
  it('is not there on one nobody touched', () => expect(hasWork(untouched)).toBe(false));

  it.each(Object.entries(WRITTEN))('is there after one %s', (kind, payload) =>
    expect(hasWork(foldVisit(untouched, [entry(kind as EntryKind, payload as never)]))).toBe(true),
  );

  it('is gone once the only entry is taken back', () => {
    const strike = entry('entry.strike', { what: 'event', entryId: 'e1', why: 'Entered by mistake' }, 'e2');
    expect(hasWork(foldVisit(untouched, [entry('event.add', WRITTEN['event.add']), strike]))).toBe(false);
  });
});
