import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moveOrder, type Move } from '@/lib/core/visits/move-order';

const at = (technicianId: string, start: number, end: number) => ({ technicianId, start, end });

describe('the order of moves', () => {
  it('makes room from the back when a round slips', () => {
    const first = { from: at('a', 10, 12), to: at('a', 11, 13) };
    const second = { from: at('a', 12, 14), to: at('a', 13, 15) };
    expect(moveOrder([first, second])).toEqual([second, first]);
  });

  it('lets one leave before another takes its place, and says when they go in a ring', () => {
    const a = { from: at('a', 9, 10), to: at('b', 9, 10) };
    const b = { from: at('b', 9, 10), to: at('b', 10, 11) };
    expect(moveOrder([a, b])).toEqual([b, a]);
    expect(moveOrder([a, { from: at('b', 9, 10), to: at('a', 9, 10) }])).toBeNull();
  });

  it('never puts anyone in two places on the way', () => {
    const slot = fc
      .record({ technicianId: fc.constantFrom('a', 'b'), start: fc.integer({ min: 0, max: 12 }) })
      .map((s) => ({ ...s, end: s.start + 2 }));
    const meet = (x: Move['from'], y: Move['from']) => x.technicianId === y.technicianId && x.start < y.end && y.start < x.end;
    const apart = (places: Move['from'][]) => places.every((x, i) => places.every((y, j) => j <= i || !meet(x, y)));
    let made = 0;
    fc.assert(
      fc.property(fc.array(fc.record({ from: slot, to: slot }), { minLength: 2, maxLength: 4 }), (moves) => {
        if (!apart(moves.map((m) => m.from)) || !apart(moves.map((m) => m.to))) return;
        const order = moveOrder(moves);
        if (!order) return;
        made++;
        expect(order).toHaveLength(moves.length);
        const now = new Map(moves.map((m) => [m, m.from]));
        for (const move of order) {
          now.set(move, move.to);
          expect(apart([...now.values()])).toBe(true);
        }
      }),
      { numRuns: 3000 },
    );
    expect(made).toBeGreaterThan(100);
  });
});
