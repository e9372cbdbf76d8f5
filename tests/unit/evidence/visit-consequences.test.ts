import { describe, expect, it } from 'vitest';
import { addDays } from '@/lib/core/calendar';
import { visitConsequences, type TaskOnFile, type UnitFile } from '@/lib/core/evidence';
import { DEFAULT_HYPER } from '@/lib/core/fouling';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { emptyFile, on } from './unit-file';

const TODAY = on('2026-03-01');
const GRADES = ['filmed', 'furred', 'matted', 'furred', 'packed', 'filmed'] as const;
const DAYS = [84, 70, 91, 63, 56, 98];
const ids = GRADES.map((_, i) => `u${i}`);
const files = ids.map((unitId, i): UnitFile => {
  const last = addDays(TODAY, -(DAYS[i] ?? 84));
  return emptyFile({
    unitId,
    cleanings: [last, TODAY],
    findings: [{ on: TODAY, aspect: 'coil', grade: GRADES[i] ?? 'bare', phase: 'found' }],
  });
});
const tasks = ids.flatMap((unitId, i) =>
  ['coil_cleaning', 'gasket_check'].map((kindKey): TaskOnFile => ({
    taskId: `${kindKey} of ${unitId}`, unitId, kindKey, rule: 'FREQ=WEEKLY;INTERVAL=12', anchor: 'last_completed', anchorDate: on('2025-11-01'), locked: false,
    minWeeks: 1, maxWeeks: 52, dueOn: TODAY, lastDoneOn: addDays(TODAY, -(DAYS[i] ?? 84)), doneOn: [], mine: null, lastChangeOn: null, lastHeldRule: null,
  }))); // prettier-ignore
const visit = { id: 'v', on: TODAY, doneTaskIds: new Set(tasks.map((t) => t.taskId)), preferredWeekday: null, unitIds: new Set(ids) };

function dates(order: <T>(list: readonly T[]) => T[]) {
  const kitchen = { files: order(files), tasks: order(tasks), visit, returns: new Map(), lookedAt: new Map() };
  const { decisions } = visitConsequences(kitchen, { fouling: DEFAULT_HYPER, failures: {} }, { ...DEFAULT_POLICY, tripCost: 55 });
  return { order: decisions.map((d) => d.taskId), of: new Map(decisions.map((d) => [d.taskId, d.dueOn])) };
}

describe('what follows from a visit', () => {
  it('is the same in whatever order units and tasks are read, and told in that order', () => {
    const one = dates((list) => [...list]);
    const other = dates((list) => [...list].reverse());
    expect(new Map([...other.of].sort())).toEqual(new Map([...one.of].sort()));
    expect(one.order).toEqual(tasks.map((t) => t.taskId));
    expect(other.order).toEqual([...one.order].reverse());
    // Dates ride along with each other here, so that the order could have mattered.
    expect(new Set(one.of.values()).size).toBeLessThan(tasks.length / 2 + 3);
  });
});
