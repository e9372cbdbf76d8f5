import { describe, expect, it } from 'vitest';
import { foldVisit, missingToClose, type Entry, type VisitOnFile } from '@/lib/core/tablet';

const blank = (over: object = {}): VisitOnFile =>
  ({
    id: 'v',
    status: 'booked',
    units: [{ id: 'u', name: 'Line fridge', tasks: [{ taskId: 't2', label: 'Drain' }] }],
    tasks: [{ taskId: 't', unitId: 'u', kindKey: 'coil_cleaning', label: 'Coil cleaning', outcome: 'planned', reason: '', lowSide: false }],
    entries: {
      ...{ arrivedAt: null, leftAt: null, findings: [], readings: [], outcomes: [], photos: [], signature: null },
      ...{ parts: [], followUps: [], foodWarnings: [], events: [] },
    },
    ...over,
  }) as unknown as VisitOnFile;

let made = 0;
const entry = (kind: string, payload: object, at = ++made): Entry =>
  ({ id: `e${++made}`, visitId: 'v', kind, madeAt: new Date(Date.UTC(2026, 10, 25, 15, at)).toISOString(), payload }) as unknown as Entry;
const reading = (phase: string, airInK: number, unitId = 'u') => entry('reading.add', { unitId, phase, values: { airInK } });
const finding = (aspect: string, phase: string, grade: string) => entry('finding.set', { unitId: 'u', aspect, phase, grade });
const after = (...entries: Entry[]) => foldVisit(blank(), entries);

describe('a visit with what the office has not heard of laid over it', () => {
  it('has one reading a unit and phase, the last one made', () => {
    const { readings } = after(reading('before', 305), reading('after', 306), reading('before', 307), reading('before', 308, 'u2')).entries;
    expect(readings.map((r) => [r.unitId, r.phase, r.values.airInK])).toEqual([
      ['u', 'after', 306],
      ['u', 'before', 307],
      ['u2', 'before', 308],
    ]);
    const late = entry('reading.add', { unitId: 'u', phase: 'after', values: { airInK: 1 } }, 0);
    expect(after(reading('after', 306), late).entries.readings.map((r) => r.values.airInK)).toEqual([306]);
  });

  it('has one grade a part and phase', () => {
    const { findings } = after(
      finding('coil', 'found', 'packed'),
      finding('coil', 'left', 'bare'),
      finding('coil', 'found', 'matted'),
    ).entries;
    expect(findings.map((f) => [f.phase, f.grade])).toEqual([
      ['left', 'bare'],
      ['found', 'matted'],
    ]);
    expect(after(finding('ice', 'found', 'dry'), finding('drain', 'found', 'runs')).entries.findings).toHaveLength(2);
  });

  it('is begun by the first arrival, and over when it is closed, unless the office had cancelled it', () => {
    const begun = after(entry('visit.start', { arrivedAt: '15:00' }), entry('visit.start', { arrivedAt: '15:20' }));
    expect([begun.status, begun.entries.arrivedAt]).toEqual(['started', '15:00']);
    const close = entry('visit.close', { leftAt: '16:00' });
    expect(foldVisit(begun, [close])).toMatchObject({ status: 'done', entries: { leftAt: '16:00', arrivedAt: '15:00' } });
    expect(foldVisit(blank({ status: 'cancelled' }), [close]).status).toBe('cancelled');
    expect(foldVisit(blank({ status: 'done' }), [entry('visit.start', { arrivedAt: '15:00' })]).status).toBe('done');
  });

  it('has tasks done, left undone with a reason, and taken on once', () => {
    const done = after(entry('task.not_done', { taskId: 't', reason: 'No key' }), entry('task.done', { taskId: 't' }));
    expect(done.tasks.map((t) => [t.taskId, t.outcome, t.reason])).toEqual([['t', 'done', '']]);
    expect(after(entry('task.not_done', { taskId: 't', reason: 'No key' })).tasks[0]).toMatchObject({
      outcome: 'not_done',
      reason: 'No key',
    });
    const take = entry('task.take', { taskId: 't2', unitId: 'u' });
    expect(after(take, entry('task.take', { taskId: 't2', unitId: 'u' })).tasks.map((t) => [t.taskId, t.outcome])).toEqual([
      ['t', 'planned'],
      ['t2', 'planned'],
    ]);
    expect(after(entry('task.take', { taskId: 'nobody’s', unitId: 'u' })).tasks).toHaveLength(1);
  });

  it('loses what was struck, of that kind alone, and nothing of another visit', () => {
    const kinds = [
      ['part.use', 'part', 'parts'],
      ['follow_up.add', 'follow_up', 'followUps'],
      ['event.add', 'event', 'events'],
      ['photo.attach', 'photo', 'photos'],
    ] as const;
    const all = kinds.map(([kind]) => entry(kind, { unitId: 'u' }));
    for (const [i, [, what, list]] of kinds.entries()) {
      const left = after(...all, entry('entry.strike', { what, entryId: all[i]?.id })).entries;
      expect(kinds.map(([, , l]) => left[l].length)).toEqual(kinds.map(([, , l]) => (l === list ? 0 : 1)));
    }
    expect(foldVisit(blank({ id: 'another' }), all)).toEqual(blank({ id: 'another' }));
  });

  it('keeps what was signed, warned of and said of a unit', () => {
    const { entries } = after(
      entry('signature.set', { signedBy: 'Ann Vale', nobodyThere: false, png: 'x' }),
      entry('food_warning.add', { unitId: 'u', toldWhom: 'Ann' }),
      entry('unit.outcome', { unitId: 'u', outcome: 'left' }),
      entry('unit.outcome', { unitId: 'u', outcome: 'done' }),
      entry('job.outcome', { jobId: 'j', outcome: 'later' }),
      entry('job.outcome', { jobId: 'j', outcome: 'done' }),
      entry('sealed.step', { recordId: 'r', step: 'leak', text: 'a' }),
      entry('sealed.step', { recordId: 'r', step: 'vacuum', text: 'b' }),
      entry('sealed.step', { recordId: 'r', step: 'leak', text: 'c' }),
    );
    expect(entries.signature).toEqual({ signedBy: 'Ann Vale', nobodyThere: false });
    expect(entries.foodWarnings).toMatchObject([{ toldWhom: 'Ann' }]);
    expect(entries.outcomes).toMatchObject([{ outcome: 'done' }]);
    expect(entries.jobOutcomes).toMatchObject([{ outcome: 'done' }]);
    expect(entries.sealed).toMatchObject([{ step: 'vacuum' }, { step: 'leak', text: 'c' }]);
  });
});

describe('what stands between a visit and its closing', () => {
  const codes = (visit: VisitOnFile) => missingToClose(visit).map((m) => m.code);

  it('is the arrival, each task that nobody spoke of, and a signature, in this order and in words', () => {
    expect(codes(blank())).toEqual(['not_arrived', 'task_open', 'no_signature']);
    expect(missingToClose(blank()).map((m) => m.message)).toEqual([
      'Say when you arrived.',
      'Line fridge: coil cleaning is neither done nor left undone for a reason.',
      'Have someone sign, or say that nobody was there.',
    ]);
  });

  it('says what is open of one unit in one line, the units in the order of the round', () => {
    const one = blank();
    const task = (taskId: string, unitId: string, label: string) =>
      ({ ...one.tasks[0], taskId, unitId, label }) as VisitOnFile['tasks'][number];
    const units = ['b', 'a'].map((id) => ({ ...one.units[0], id, name: `Unit ${id}` })) as VisitOnFile['units'];
    const tasks = [
      task('1', 'a', 'Coil cleaning'),
      task('2', 'b', 'Coil cleaning'),
      task('3', 'a', 'Drain inspection'),
      task('4', 'a', 'Filter'),
    ];
    expect(missingToClose({ ...one, units, tasks }).map((m) => m.message)).toEqual([
      'Say when you arrived.',
      'Unit b: coil cleaning is neither done nor left undone for a reason.',
      'Unit a: coil cleaning, drain inspection and filter are neither done nor left undone for a reason.',
      'Have someone sign, or say that nobody was there.',
    ]);
  });

  it('is nothing once all is said, and still the arrival where all else is', () => {
    const rest = [entry('task.not_done', { taskId: 't', reason: 'No key' }), entry('signature.set', { signedBy: '', nobodyThere: true })];
    expect(codes(after(entry('visit.start', { arrivedAt: '15:00' }), ...rest))).toEqual([]);
    expect(codes(after(...rest))).toEqual(['not_arrived']);
  });
});
