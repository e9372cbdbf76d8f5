import { describe, expect, it } from 'vitest';
import { weeksRule } from '@/lib/core/calendar';
import { groupChanges } from '@/lib/core/intervals/change-groups';

type Over = { kind?: string; guard?: string; rule?: string; locked?: boolean };
let n = 0;
const change = (from: number, to: number, over: Over = {}) => ({
  id: `c${++n}`,
  fromRule: weeksRule(from),
  toRule: weeksRule(to),
  evidence: { guard: over.guard },
  task: { kind: over.kind ?? 'Coil cleaning', locked: over.locked ?? false, rule: over.rule ?? weeksRule(to), booked: false },
});

describe('changes of rules to look at', () => {
  it('puts together what moved alike, the largest group first, and leaves out of groups what is unusual', () => {
    const list = [
      change(8, 10),
      change(10, 12),
      change(12, 15),
      change(8, 6, { guard: 'severe' }),
      change(9, 7),
      change(8, 10, { kind: 'Drain inspection' }),
    ];
    const strange = [change(12, 6), change(6, 12), change(8, 10, { locked: true }), change(8, 10, { rule: weeksRule(9) })];
    const { groups, odd } = groupChanges([...list, ...strange]);
    expect(groups.map((g) => [g.kind, g.why, g.changes.length, g.fromWeeks, g.toWeeks])).toEqual([
      ['Coil cleaning', 'looser', 3, 10, 12],
      ['Coil cleaning', 'severe', 1, 8, 6],
      ['Coil cleaning', 'tighter', 1, 9, 7],
      ['Drain inspection', 'looser', 1, 8, 10],
    ]);
    expect(odd.map((o) => o.change.id)).toEqual(strange.map((s) => s.id));
  });

  it('lists groups by size, whichever came first, and those of one size by name', () => {
    const one = change(8, 10, { kind: 'Drain inspection' });
    const two = [change(9, 7), change(9, 7)];
    const three = [change(8, 10), change(8, 10), change(8, 10)];
    const another = change(8, 7, { kind: 'Belt check' });
    const orders = [
      [one, another, ...two, ...three],
      [...three, ...two, another, one],
      [...two, one, ...three, another],
    ];
    for (const order of orders)
      expect(groupChanges(order).groups.map((g) => g.key)).toEqual([
        'Coil cleaning: looser',
        'Coil cleaning: tighter',
        'Belt check: tighter',
        'Drain inspection: looser',
      ]);
  });

  it('keeps changes in the order given and says the middle of their weeks', () => {
    const list = [change(20, 24), change(4, 5), change(12, 15)];
    const [group] = groupChanges(list).groups;
    expect(group).toMatchObject({ key: 'Coil cleaning: looser', fromWeeks: 12, toWeeks: 15 });
    expect(group?.changes.map((c) => c.id)).toEqual(list.map((c) => c.id));
    expect(groupChanges([])).toEqual({ groups: [], odd: [] });
  });

  it.each([
    ['halved', 12, 6, {}, 'The interval is halved or less.'],
    ['less than halved', 12, 7, {}, null],
    ['doubled', 6, 12, {}, 'The interval is doubled or more.'],
    ['less than doubled', 6, 11, {}, null],
    ['locked since', 8, 10, { locked: true }, 'The rule is locked now.'],
    ['changed since', 8, 10, { rule: weeksRule(9) }, 'The rule has changed again since.'],
    ['changed and locked since', 8, 10, { rule: weeksRule(9), locked: true }, 'The rule has changed again since.'],
    ['locked after it was halved', 12, 4, { locked: true }, 'The rule is locked now.'],
  ])('asks for a look of its own: %s', (_, from, to, over: Over, why) => {
    const { groups, odd } = groupChanges([change(from, to, over)]);
    expect(odd.map((o) => o.why)).toEqual(why === null ? [] : [why]);
    expect(groups).toHaveLength(why === null ? 1 : 0);
  });
});
