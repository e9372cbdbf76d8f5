import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distance } from '@/lib/core/wording/distance';

describe('how far one word is from another', () => {
  // The example of textbooks: two letters changed, one put in.
  it.each([
    ['kitten', 'sitting', 3],
    ['flaw', 'lawn', 2],
    ['', 'ice', 3],
    ['ice', '', 3],
    ['drain', 'drain', 0],
    ['darin', 'drain', 2],
    ['coil', 'coils', 1],
    ['soil', 'coil', 1],
  ])('%s and %s: %i', (a, b, letters) => expect(distance(a, b)).toBe(letters));

  it('is the same both ways, and never more than the longer word', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 8 }), fc.string({ maxLength: 8 }), (a, b) => {
        expect(distance(a, b)).toBe(distance(b, a));
        expect(distance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
        expect(distance(a, b) === 0).toBe(a === b);
      }),
    );
  });
});
