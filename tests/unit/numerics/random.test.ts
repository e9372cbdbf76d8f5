import { describe, expect, it } from 'vitest';
import { RandomStream } from '@/lib/core/numerics/random';

const many = (n: number, draw: () => number) => Array.from({ length: n }, draw);
const mean = (x: number[]) => x.reduce((a, b) => a + b, 0) / x.length;
const variance = (x: number[]) => mean(x.map((v) => (v - mean(x)) ** 2));

describe('a random stream', () => {
  it('is the same for the same seed and name, and another for another', () => {
    const draw = (seed: number, name: string) =>
      many(5, () => 0).map(
        (
          (r) => () =>
            r.next()
        )(new RandomStream(seed, name)),
      );
    expect(draw(1, 'a')).toEqual(draw(1, 'a'));
    expect(draw(1, 'a')).not.toEqual(draw(1, 'b'));
    expect(draw(1, 'a')).not.toEqual(draw(2, 'a'));
  });

  it('draws with the moments of its distributions', () => {
    const r = new RandomStream(7);
    const normal = many(20_000, () => r.normal(3, 2));
    expect(mean(normal)).toBeCloseTo(3, 1);
    expect(variance(normal)).toBeCloseTo(4, 0);
    // Gamma: mean shape × scale, variance shape × scale².
    for (const shape of [0.4, 2.5]) {
      const gamma = many(20_000, () => r.gamma(shape, 1.5));
      expect(mean(gamma) / (shape * 1.5)).toBeCloseTo(1, 1);
      expect(variance(gamma) / (shape * 2.25)).toBeCloseTo(1, 0);
    }
    expect(mean(many(20_000, () => r.exponential(40))) / 40).toBeCloseTo(1, 1);
    expect(mean(many(20_000, () => r.whole(1, 6)))).toBeCloseTo(3.5, 1);
  });

  it('writes ids of version 4, none twice', () => {
    const r = new RandomStream(1, 'ids');
    const ids = Array.from({ length: 2000 }, () => r.uuid());
    for (const id of ids.slice(0, 50)) expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(new Set(ids).size).toBe(2000);
  });

  it('refuses to pick from nothing', () => {
    expect(() => new RandomStream(1).pick([])).toThrow(RangeError);
  });
});
