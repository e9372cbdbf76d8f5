import { expect, it } from 'vitest';
import { differenceWords, temperatureWords } from '@/lib/core/condenser/words/both-units';

it.each([
  [308.15, '95 °F (35 °C)'],
  [278.15, '41 °F (5 °C)'],
  [255.372, '0 °F (-18 °C)'],
])('writes %d K for readers of either unit', (K, expected) => expect(temperatureWords(K)).toBe(expected));

// A difference has no zero point: 10 K are 18 °F, never 50.
it.each([
  [10, '18 °F (10 K)'],
  [-10, '18 °F (10 K)'],
  [0.2, '0 °F (0 K)'],
])('writes a difference of %d K', (K, expected) => expect(differenceWords(K)).toBe(expected));
