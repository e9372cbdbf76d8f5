import { expect, it } from 'vitest';
import { partOf } from '@/lib/core/visits/board-rows';

const people = Array.from({ length: 35 }, (_, n) => ({ id: `p${n}` }));

it('shows every technician on exactly one part of the week, and everybody’s visits on one too', () => {
  const parts = [0, 1, 2].map((n) => partOf(people, 16, n));
  expect(parts.flatMap((p) => p.shown)).toEqual(people);
  const drawn = (id: string) =>
    parts.filter(({ whose }) => whose && ('in' in whose ? whose.in.includes(id) : !whose.notIn.includes(id))).length;
  for (const id of [...people.map((p) => p.id), 'does visits no more']) expect(drawn(id)).toBe(1);
});

it('shows a part that exists, whatever is asked, and all of a small shop', () => {
  for (const asked of [NaN, -3, 1.5]) expect(partOf(people, 16, asked).part).toBe(0);
  expect(partOf(people, 16, 99)).toMatchObject({ part: 2, first: 32 });
  expect(partOf(people.slice(0, 16), 16, 5)).toMatchObject({ parts: 1, whose: undefined });
});
