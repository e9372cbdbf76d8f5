import { expect, it } from 'vitest';
import { turns } from '@/lib/server/papers/turns';

const later = (ms: number) => new Promise((ok) => setTimeout(ok, ms));

it('gives turns in the order of asking, one at a time, refuses beyond its bound, and goes on after a failure', async () => {
  const inTurn = turns(3);
  const told: string[] = [];
  let atWork = 0;
  const work = (name: string, ms: number) => async () => {
    expect(++atWork).toBe(1);
    await later(ms);
    atWork--;
    told.push(name);
    if (name === 'b') throw new Error('b failed');
    return name;
  };
  const asked = [inTurn(work('a', 20)), inTurn(work('b', 5)), inTurn(work('c', 1)), inTurn(work('d', 1))];
  await expect(inTurn(work('e', 1))).rejects.toMatchObject({ code: 'busy' });
  expect((await Promise.allSettled(asked)).map((r) => (r.status === 'fulfilled' ? r.value : String(r.reason)))).toEqual([
    'a',
    'Error: b failed',
    'c',
    'd',
  ]);
  expect([await inTurn(work('f', 1)), told.join('')]).toEqual(['f', 'abcdf']);
});
