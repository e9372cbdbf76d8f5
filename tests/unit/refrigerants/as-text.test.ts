import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { halved, shortNumbers } from '@/checks/refrigerant-tables/as-text';
import { ChebyshevCurve, fitPiecewise } from '@/lib/core/numerics/chebyshev';

describe('expansions as they are written', () => {
  // Steep at one end, so that pieces of many widths come of it.
  const fit = (a: number, b: number) => fitPiecewise((x) => 1 / (x - a + 0.003), a, b, { tolerance: 1e-9 });

  it('give every value back to the last bit from their ends and halvings', () => {
    for (const [a, b] of [
      [0, 1],
      [0.5855311090689472, 12.489623622919446],
      [-3.1, 7e-3],
    ] as const) {
      // prettier-ignore
      const whole = fit(a, b);
      const written = halved(whole);
      expect(whole.knots.length).toBeGreaterThan(5);
      expect(written.knots).toEqual([a, b]);
      const [one, other] = [new ChebyshevCurve(whole), new ChebyshevCurve(JSON.parse(JSON.stringify(written)))];
      for (let i = 0; i <= 1000; i++) {
        const x = a + ((b - a) * i) / 1000;
        expect(other.value(x)).toBe(one.value(x));
      }
      for (const x of whole.knots) expect(other.value(x)).toBe(one.value(x));
    }
  });

  it('of one piece stay as they are, and knots that are no halvings are refused', () => {
    const line = { knots: [0, 2], pieces: [[1, 2]] };
    expect(halved(line)).toEqual(line);
    expect(() => halved({ knots: [0, 0.4, 1], pieces: [[1], [2]] })).toThrow('No knot at the middle of 0 and 1');
    expect(() => halved({ knots: [], pieces: [] })).toThrow('No knots');
  });
});

describe('short numbers', () => {
  it('are the same numbers', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true, noDefaultInfinity: true })), (numbers) => {
        const json = JSON.stringify({ numbers });
        expect(JSON.parse(shortNumbers(json))).toEqual(JSON.parse(json));
      }),
    );
  });
  it('are shorter where they can be, and nothing else changes', () => {
    expect(shortNumbers('{"a":[0.00009328883,-0.0000123,6.1516e-7,15.25,0.5,2e-10,-1.5e-9,300]}')).toBe(
      '{"a":[9328883e-11,-123e-7,6.1516e-7,15.25,0.5,2e-10,-1.5e-9,300]}',
    );
  });
});
