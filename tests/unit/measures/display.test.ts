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
    // Three digits of what has no band.
    [[50.1234, 50.1234, 50.1234, 'K'], '50.1 K (50.1–50.1)'],
    [[512.34, 512.34, 512.34, 'K'], '512 K (512–512)'],
    [[1234.5, 1234.5, 1234.5, 'K'], '1,235 K (1,235–1,235)'],
    [[0.05123, 0.05123, 0.05123, 'K'], '0.0512 K (0.0512–0.0512)'],
    [[-5, -5, -5, 'K'], '−5.00 K (−5.00 to −5.00)'],
    // Tens and a band of two or more: whole numbers.
    [[10, 9, 11, 'K'], '10 K (9–11)'],
    [[-12, -13, -11, 'K'], '−12 K (−13 to −11)'],
    [[10, 9.5, 11.4, 'K'], '10.0 K (9.5–11.4)'],
    [[4, 3.9999, 4.0001, 'K'], '4.00000 K (3.99990–4.00010)'],
    [[12_345, 11_000, 14_000, 'K'], '12,300 K (11,000–14,000)'],
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
    expect([31, 0.05, 1234, 0].map((x) => formatUncertain(x, 0, 'K'))).toEqual(['31.0 ± 0.0 K', '0.0500 ± 0.0000 K', '1,234 ± 0 K', '0 ± 0 K']); // prettier-ignore
    expect([formatUncertain(310, 15, 'K'), formatUncertain(310, 25, 'K'), formatUncertain(-0.01, 0.5, 'K')]).toEqual(['310 ± 15 K', '310 ± 30 K', '0.0 ± 0.5 K']); // prettier-ignore
    expect([[-0.4, 0], [-999.96, 1], [999.96, 1], [-1000.5, 2], [15, -1], [-4, -1], [-0, 0]].map(([x = NaN, n = 0]) => formatQuantity(x, n))).toEqual(['0', '−1,000.0', '1,000.0', '−1,000.50', '20', '0', '0']); // prettier-ignore
  });
});
