import { describe, expect, it } from 'vitest';
import { weeksRule } from '@/lib/core/calendar';
import { groupChanges } from '@/lib/core/intervals/change-groups';

let n = 0;
const change = (from: number, to: number, over: { kind?: string; guard?: string; rule?: string; locked?: boolean } = {}) => ({
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
    expect(odd.every((o) => o.why.length > 0)).toBe(true);
  });
});
