import { describe, expect, it } from 'vitest';
import { addDays } from '@/lib/core/calendar';
import { decide, ENDED, kitchenBeliefs, madeByVisit, type TaskOnFile, type UnitFile } from '@/lib/core/evidence';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { DEFAULT_HYPER } from '@/lib/core/fouling';
import { on, emptyFile } from './unit-file';

const TODAY = on('2026-03-01');
const task = (over: Partial<TaskOnFile> = {}): TaskOnFile => ({
  taskId: 't', unitId: 'u1', kindKey: 'coil_cleaning', rule: 'FREQ=WEEKLY;INTERVAL=12', anchor: 'last_completed', anchorDate: on('2025-11-01'),
  locked: false, minWeeks: 2, maxWeeks: 52, dueOn: on('2026-03-01'), lastDoneOn: on('2025-12-07'), doneOn: [on('2025-12-07')], mine: null,
  lastChangeOn: null, lastHeldRule: null, ...over,
}); // prettier-ignore
const file: UnitFile = emptyFile({
  cleanings: [on('2025-12-07'), TODAY],
  findings: [{ on: TODAY, aspect: 'coil', grade: 'packed', phase: 'found' }],
});
const decided = (over: Partial<TaskOnFile> = {}, done = true, seen = file) => {
  const [belief] = kitchenBeliefs([seen], { fouling: DEFAULT_HYPER, failures: {} });
  if (!belief) throw new Error('no belief');
  const visit = { on: TODAY, doneTaskIds: new Set(done ? ['t'] : []), preferredWeekday: null };
  return decide(task(over), visit, belief, { rules: DEFAULT_POLICY, hyper: DEFAULT_HYPER, own: null });
};

describe('what becomes of a task after a visit', () => {
  it('a packed coil gives a new rule with its record, due from this visit', () => {
    const d = decided();
    expect(d).toMatchObject({ fromRule: task().rule, lastDoneOn: TODAY, settled: false, shown: true, held: null });
    expect(d?.rule).not.toBe(task().rule);
    expect(d?.record).toMatchObject({ kind: 'evidence', fromDueOn: '2026-03-01', toDueOn: d?.dueOn, reason: d?.reason });
  });

  it('decided again, gives the same and keeps nothing twice', () => {
    const first = decided();
    if (!first?.dueOn) throw new Error('no date');
    const again = decided({
      rule: first.rule,
      dueOn: first.dueOn,
      lastDoneOn: TODAY,
      mine: { fromRule: first.fromRule, toRule: first.rule },
    });
    expect(again).toMatchObject({ rule: first.rule, dueOn: first.dueOn, settled: true, record: null });
  });

  it('decided over and over begins with the rule before the visit, or with what somebody set by hand since', () => {
    const change = (fromRule: string, toRule: string) => ({ fromRule, toRule });
    expect(madeByVisit([])).toBeNull();
    expect(madeByVisit([change('10', '20')])).toEqual(change('10', '20'));
    expect(madeByVisit([change('19', '18'), change('20', '19'), change('10', '20')])).toEqual(change('10', '18'));
    expect(madeByVisit([change('15', '19'), change('10', '20')])).toEqual(change('15', '19'));
  });

  it('holds a lock once, and says what it held', () => {
    const d = decided({ locked: true });
    expect(d).toMatchObject({ rule: task().rule, record: null, held: { kind: 'held', reason: expect.stringContaining('Locked') } });
    const held = d?.held?.evidence['wouldHave'];
    expect(decided({ locked: true, lastHeldRule: String(held) })?.held).toBeNull();
  });

  it('work not done there keeps its rule unless something severe was met', () => {
    expect(decided({}, false)).toMatchObject({ shown: true, lastDoneOn: '2025-12-07' });
    const mild = { ...file, findings: [{ on: TODAY, aspect: 'coil', grade: 'matted', phase: 'found' }] } as const;
    expect(decided({}, false, mild)).toMatchObject({ rule: task().rule, shown: false, record: null });
  });

  it('a rule whose last date is done ends, and one never done is nobody’s yet', () => {
    expect(decided({ rule: 'FREQ=WEEKLY;INTERVAL=12;UNTIL=20260310' })).toMatchObject({
      dueOn: null,
      reason: ENDED,
      record: { kind: 'ended', toDueOn: null },
    });
    expect(decided({ lastDoneOn: null, doneOn: [] }, false)).toBeNull();
    expect(decided({ kindKey: 'gasket_check' })).toMatchObject({ rule: task().rule, dueOn: addDays(TODAY, 84), record: null });
  });
});
