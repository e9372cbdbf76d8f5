import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { typedNumber } from '@/lib/core/measures/typed-number';
import { decimal, money, whole } from '@/lib/core/measures/figures';

const read = (...texts: string[]) => texts.map(typedNumber);

describe('a number as people type it', () => {
  it('stands with a point or a comma, and with a minus of either kind', () => {
    expect(read('12', ' 12,5 ', '−3', '- 3', '+4', '.5', ',5', '5.', '-0.5', '0,125')).toEqual([
      12, 12.5, -3, -3, 4, 0.5, 0.5, 5, -0.5, 0.125,
    ]);
  });
  it('may part its thousands as the pages do: a vacuum of 1,500 is not one and a half', () => {
    expect(read('1,200', '1,500', '12,500,000', '1,200.50', '1 200', '1\u202f200')).toEqual([1200, 1500, 12_500_000, 1200.5, 1200, 1200]);
  });
  it('may stand beside its currency or a percent sign', () => {
    expect(read('$0.70', '$1,200', '-$5', '85 USD', 'USD 85', 'US$ 85', '85€', '8.25%', '8.25 %')).toEqual([
      0.7, 1200, -5, 85, 85, 85, 85, 8.25, 8.25,
    ]);
  });
  it('is whole or has decimals as each way of parting thousands allows', () => {
    expect(
      read('12 500.5', '1\u2009200', '1\u00a0200', '1,200.', '100,200', '1,200,300.75', '+1,200', '− 5', '-$1,200.50', '12,', '0.', '007'),
    ).toEqual([12_500.5, 1200, 1200, 1200, 100_200, 1_200_300.75, 1200, -5, -1200.5, 12, 0, 7]);
    // Not three digits behind the comma, or more than three or a nought before it: decimals.
    expect(read('0,200', '1000,200', '1,20', '1,2000')).toEqual([0.2, 1000.2, 1.2, 1.2]);
    expect(read('€ 5', '£5', 'CA$ 5', 'US$5', '5 EUR', '5  %', '$ 5', `${'0'.repeat(58)}.5`)).toEqual([5, 5, 5, 5, 5, 5, 5, 0.5]);
    for (const text of ['1,200 300', '1 200,5', '1,200,', '1,200.5.5', 'x1,200', '1,200x', 'USD5', 'ABCD 5', '5 US', '5 USDX', '5USD', 'usd 5', '5 usd', '%5', '5%%', '5\n6', '1..5', '1.5.', '+-1']) expect(typedNumber(text), text).toBeNull(); // prettier-ignore
  });
  it('is nothing else, and no other unit is taken off it', () => {
    for (const text of ['', ' ', '1e3', '0x10', '12a', '1,2,3', '1,20,000', '12,3456.7', '--1', '.', ',', '$', '300 kPa', '300psi', 'Infinity', 'NaN', '1 2', '１２', '9'.repeat(61)]) expect(typedNumber(text), text).toBeNull(); // prettier-ignore
  });
  it('reads back whatever the pages write', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), (n) => typedNumber(whole(n)) === n || (n === 0 && typedNumber(whole(n)) === 0)),
    );
    fc.assert(
      fc.property(fc.integer({ min: -1e8, max: 1e8 }), fc.constantFrom('USD', 'EUR', 'GBP', 'CAD', 'ZAR'), (cents, currency) => {
        expect(typedNumber(money(cents, currency))).toBeCloseTo(cents / 100, 6);
        expect(typedNumber(decimal(cents / 100, 2))).toBeCloseTo(cents / 100, 6);
      }),
    );
  });
  it('takes no time over a megabyte of spaces', () => {
    const before = performance.now();
    expect(typedNumber(`1${' '.repeat(1e6)}x`)).toBeNull();
    expect(performance.now() - before).toBeLessThan(100);
  });
});
