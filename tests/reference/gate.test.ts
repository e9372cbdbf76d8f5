import { describe, expect, it } from 'vitest';
import { loadComparisons } from './load';

const comparisons = await loadComparisons();

describe('accuracy against outside sources', () => {
  it('has comparisons, each with its own id and source', () => {
    expect(comparisons.length).toBeGreaterThan(0);
    expect(new Set(comparisons.map((c) => c.id)).size).toBe(comparisons.length);
    for (const c of comparisons) expect(c.source, c.id).not.toBe('');
  });

  it.each(comparisons)('$id: $quantity', (c) => {
    expect(c.samples, 'a sample was dropped').toBe(c.expectedSamples);
    expect(c.expectedSamples).toBeGreaterThan(0);
    expect(c.tolerance).toBeGreaterThan(0);
    expect(c.worst).toBeLessThanOrEqual(c.tolerance);
  });
});
