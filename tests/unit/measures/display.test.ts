import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalsForBand, formatBand, formatQuantity, formatUncertain } from '@/lib/core/measures';

describe('a figure with its band', () => {
  it.each([
    [[12, 8, 17, '%'], '12 % (8–17)'],
    [[12.34, 8.21, 17.09, '%'], '12 % (8–17)'],
    [[1234, 1100, 1400, 'kWh'], '1,230 kWh (1,100–1,400)'],
    [[0.512, 0.48, 0.55, ''], '0.51 (0.48–0.55)'],
    [[2.31, 1.84, 2.92, '°F'], '2.3 °F (1.8–2.9)'],
    [[-3, -8, 2, '%'], '−3 % (−8 to 2)'],
    [[0.001, -0.2, 0.2, 'K'], '0.0 K (−0.2 to 0.2)'],
    [[-0.001, -0.2, 0.2, 'K'], '0.0 K (−0.2 to 0.2)'],
    [[5, 5, 5, 'K'], '5.00 K (5.00–5.00)'],
  ] as const)('%j reads %s', ([value, lo, hi, unit], text) => {
    expect(formatBand(value, lo, hi, unit)).toBe(text);
  });

  it('keeps to the decimals that mean something to the reader', () => {
    expect(formatBand(8.6, 7.31, 9.82, '%')).toBe('8.6 % (7.3–9.8)');
    expect(formatBand(8.6, 7.31, 9.82, '%', 0)).toBe('9 % (7–10)');
    expect(formatBand(4.02, 3.61, 4.43, '%', 0)).toBe('4.0 % (3.6–4.4)');
    expect(formatBand(1234, 1100, 1400, 'kWh', 0)).toBe('1,230 kWh (1,100–1,400)');
  });

  it('says so where there is nothing to say', () => {
    expect(formatBand(NaN, 1, 2, 'K')).toBe('can’t say');
    expect(formatBand(1, -Infinity, 2, 'K')).toBe('can’t say');
    expect(formatBand(1, 3, 2, 'K')).toBe('can’t say');
    expect(formatUncertain(NaN, 1, 'K')).toBe('can’t say');
    expect(formatQuantity(Infinity, 1, 'K')).toBe('can’t say');
  });

  it('never shows more than two digits of the band, and never so few that the band vanishes', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (width) => {
        const step = 10 ** -decimalsForBand(width);
        expect(width / 2 / step).toBeGreaterThanOrEqual(0.999);
        expect(width / 2 / step).toBeLessThan(20.001);
      }),
    );
  });
});

describe('other figures', () => {
  it('carry unit and a true minus', () => {
    expect(formatUncertain(31.2345, 0.43, '°F')).toBe('31.2 ± 0.4 °F');
    expect(formatQuantity(161.07, 1, 'psia')).toBe('161.1 psia');
    expect(formatQuantity(-14.25, 1, '°F')).toBe('−14.3 °F');
    expect(formatQuantity(-0.04, 1, '°F')).toBe('0.0 °F');
  });
});
