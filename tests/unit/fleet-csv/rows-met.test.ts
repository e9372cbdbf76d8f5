import { describe, expect, it } from 'vitest';
import { allColumns, planFleet, template } from '@/lib/core/fleet-csv';
import { date, yesNo } from '@/lib/core/fleet-csv/cells';
import { blankUnit } from '@/lib/core/equipment/unit-fields';
import { TASK_KINDS } from '@/lib/core/tasks/kinds';

const HEAD = ['customer', 'kitchen', 'unit', 'kind', 'placement', 'refrigerant', 'tag', 'make', 'model', 'coil_cleaning_rule', 'coil_cleaning_last_done', 'coil_cleaning_locked']; // prettier-ignore
const cooler = { id: 'u', version: 2, customer: 'Ash', kitchen: 'Ash One', values: { ...blankUnit('reach_in'), tag: 'A-1', name: 'Cooler', kind: 'reach_in' as const, placement: 'line' as const, refrigerant: 'R290' } }; // prettier-ignore
const plan = (...rows: string[][]) =>
  planFleet([HEAD, ...rows].map((cells, i) => ({ line: i + 1, cells })), { columns: allColumns(TASK_KINDS), kinds: TASK_KINDS, onFile: { customers: new Map(), kitchens: new Map(), tags: new Set(['A-1']), units: [cooler] }, shopTimeZone: 'America/Chicago', whereOnFile: 'fill', now: Date.UTC(2026, 2, 4, 18) }); // prettier-ignore
const row = (unit: string, ...more: string[]) => ['Ash', 'Ash One', unit, 'reach_in', 'line', 'R290', ...more];

describe('a file that meets what is on file', () => {
  it('changes a unit it knows and adds none; of two rows about one unit the first one’s word stands', () => {
    const { units, updates, rowsOnFile, problems } = plan(row('Cooler', 'A-1', 'Holm'), row('Cooler', 'A-1', 'Other', 'M4'));
    expect([units, problems]).toEqual([[], []]);
    expect(rowsOnFile).toBe(2);
    expect(updates).toEqual([{ unitId: 'u', version: 2, name: 'Cooler', line: 2, set: { make: 'Holm', model: 'M4' } }]);
    expect(plan(row('Cooler', 'A-1')).updates).toEqual([]);
  });

  it('says what is wrong with a task: a day yet to come, and a day without a rule is no wrong where the task is usual', () => {
    const said = (...more: string[]) => plan(row('New', '', '', '', ...more)).problems.map((p) => `${p.line} ${p.column}: ${p.message}`);
    expect(said('8', '2026-03-05')).toEqual(['2 coil_cleaning_last_done: Lies in the future.']);
    expect(said('8', '2026-03-04')).toEqual([]);
    expect(said('', '2026-03-01', 'yes')).toEqual([]);
  });

  it('says it of a unit that has no such task by itself', () => {
    const remote = ['Ash', 'Ash One', 'Roof', 'remote_condensing_unit', 'outdoors', 'R290', '', '', '', '', '', ''];
    const table = [
      [...HEAD, 'drain_inspection_rule', 'drain_inspection_locked'],
      [...remote, '', 'yes'],
    ];
    const { problems } = planFleet(table.map((cells, i) => ({ line: i + 1, cells })), { columns: allColumns(TASK_KINDS), kinds: TASK_KINDS, onFile: { customers: new Map(), kitchens: new Map(), tags: new Set() }, shopTimeZone: 'UTC', now: Date.UTC(2026, 2, 4) }); // prettier-ignore
    expect(problems.map((p) => `${p.column}: ${p.message}`)).toEqual([
      'drain_inspection_rule: Is empty though other columns of this task are filled. Write its weeks.',
    ]);
  });
});

it('cells say yes, no and days in the ways people write them, and what to write otherwise', () => {
  for (const yes of ['yes', 'Y', 'TRUE', 't', '1', 'x', 'On', 'sí', 'Si', '✓', '✔', '☑']) expect(yesNo(yes), yes).toEqual({ value: true });
  for (const no of ['no', 'N', 'false', 'F', '0', 'off', '✗', '✘', '☐']) expect(yesNo(no), no).toEqual({ value: false });
  const neither = { problem: 'Write yes or no; y, n, true, false, 1, 0 and x for yes will do as well.' };
  expect(['maybe', 'yess', 'ono', '10', '', 'xx', '-', '?'].map(yesNo)).toEqual(Array(8).fill(neither));
  expect(date('2026-03-31')).toEqual({ value: '2026-03-31' });
  // Where it is clear which is the month, a day as people write it.
  for (const day of ['31.3.2026', '31. 3. 2026', '3/31/26', '31-Mar-26', 'March 31, 2026'])
    expect(date(day), day).toEqual({ value: '2026-03-31' });
  expect(date('5.5.2026')).toEqual({ value: '2026-05-05' });
});

it('the template shows each example in full: a unit’s charge, its place, its rules', () => {
  const [head, ...rows] = template(TASK_KINDS);
  const column = (name: string) => rows.map((r) => r[head?.indexOf(name) ?? -1]);
  expect(column('unit')).toEqual(['Fry line drawers', 'Walk-in cooler', 'Bar bottle cooler']);
  expect(column('charge_oz')).toEqual(['4.2', '96', '7']);
  expect(column('coil_cleaning_rule')).toEqual(['4', '', 'FREQ=MONTHLY;INTERVAL=6;BYDAY=1TU']);
});
