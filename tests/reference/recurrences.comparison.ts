import type { Comparison } from './comparison';
import { expanded, SOURCE, VECTORS } from './rfc5545';

export function comparisons(): Comparison[] {
  const expected = VECTORS.reduce((n, v) => n + v.expect.length, 0);
  let samples = 0;
  let wrong = 0;
  for (const v of VECTORS) {
    const ours = expanded(v);
    samples += ours.length;
    wrong += v.expect.filter((t, i) => ours[i] !== t).length;
  }
  return [
    {
      id: 'rfc5545-rules',
      source: SOURCE,
      quantity: '26 rules: occurrences that differ',
      unit: 'occurrences',
      tolerance: 1e-9,
      worst: wrong,
      samples,
      expectedSamples: expected,
    },
  ];
}
