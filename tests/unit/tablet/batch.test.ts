import { expect, it } from 'vitest';
import type { Entry } from '@/lib/core/tablet';
import { BATCH, batchLength } from '@/lib/tablet/batch';

const ops = (n: number, characters = 10) => Array.from({ length: n }, () => ({ payload: 'x'.repeat(characters) }) as unknown as Entry);

it.each([
  ['none', ops(0), 0],
  ['a few', ops(3), 3],
  ['more than a request takes', ops(200), BATCH],
  ['signatures, by their size', ops(10, 40_000), 2],
  ['one that is large by itself', ops(2, 900_000), 1],
])('sends %s', (_, entries, length) => expect(batchLength(entries)).toBe(length));
