import { describe, expect, it } from 'vitest';
import { isFailure, unwrap } from '@/lib/core/refrigerants';
import { boreArea, chargeByWeight, TUBE_SIZES, tubeVolume, type ChargeConditions } from '@/lib/core/sealed';
import { fahrenheitToKelvin, kilogramToGram, ounceToKilogram } from '@/lib/core/measures';

/** Cross-sectional area of the bore as printed beside the bores in ASTM B280's table, square inches. */
const PRINTED_IN2: Partial<Record<(typeof TUBE_SIZES)[number], number>> = {
  '1/8': 0.0033,
  '3/16': 0.0129,
  '1/4': 0.0284,
  '5/16': 0.0483,
  '3/8': 0.076,
  '1/2': 0.149,
  '5/8': 0.242,
  '3/4': 0.363,
  '7/8': 0.484,
  '1 1/8': 0.825,
  '1 3/8': 1.26,
};

const conditions: ChargeConditions = {
  refrigerant: 'R134a',
  liquidK: fahrenheitToKelvin(100),
  condensingK: fahrenheitToKelvin(110),
  evaporatingK: fahrenheitToKelvin(20),
  suctionK: fahrenheitToKelvin(45),
  temperatureSdK: 3,
};

describe('charge by weight', () => {
  it.each(TUBE_SIZES)('bore of %s in tube: area as ASTM B280 prints it', (size) => {
    const { areaM2, sdShare } = boreArea(size);
    expect(areaM2 / 0.0254 ** 2 / (PRINTED_IN2[size] ?? NaN)).toBeCloseTo(1, 1);
    expect(sdShare).toBeLessThan(0.11);
  });

  it('a plate of 8 oz gets a few grams more for a wider liquid line and a larger drier (common practice)', () => {
    const sum = unwrap(
      chargeByWeight(
        ounceToKilogram(8),
        [
          { what: 'liquid line before', kind: 'tube', size: '1/4', lengthM: 0.9, holds: 'liquid', sign: -1 },
          { what: 'liquid line now', kind: 'tube', size: '5/16', lengthM: 0.9, holds: 'liquid', sign: 1 },
          { what: 'drier before', kind: 'volume', volumeM3: 8e-6, sdShare: 0.15, holds: 'liquid', sign: -1 },
          { what: 'drier now', kind: 'volume', volumeM3: 14e-6, sdShare: 0.15, holds: 'liquid', sign: 1 },
        ],
        conditions,
      ),
    );
    const more = kilogramToGram(sum.kg - ounceToKilogram(8));
    expect(more).toBeGreaterThan(5);
    expect(more).toBeLessThan(30);
    // The working adds up: volume times density, line by line.
    for (const line of sum.lines) expect(Math.abs(line.kg)).toBeCloseTo(line.volumeM3 * line.densityKgM3, 12);
    expect(sum.lines.reduce((s: number, l) => s + l.kg, ounceToKilogram(8))).toBeCloseTo(sum.kg, 12);
    expect(sum.band[0]).toBeLessThan(sum.kg);
  });

  it('R-134a liquid at 100 °F is 1,153 kg/m³ saturated (CoolProp 8.0.0), so 3 m of 3/8 in line hold about 170 g', () => {
    const sum = unwrap(
      chargeByWeight(1, [{ what: 'liquid line', kind: 'tube', size: '3/8', lengthM: 3, holds: 'liquid', sign: 1 }], {
        ...conditions,
        condensingK: conditions.liquidK,
      }),
    );
    expect(sum.lines[0]?.densityKgM3).toBeCloseTo(1153, -1);
    expect(kilogramToGram(sum.kg - 1)).toBeCloseTo(kilogramToGram(tubeVolume('3/8', 3) * 1153), 0);
  });

  it('vapour weighs a small part of liquid, and a condenser of unknown fill widens the band', () => {
    const add = (holds: Parameters<typeof chargeByWeight>[1][number]['holds']) =>
      unwrap(chargeByWeight(1, [{ what: 'x', kind: 'volume', volumeM3: 1e-4, sdShare: 0.05, holds, sign: 1 }], conditions));
    expect((add('suction_vapour').kg - 1) / (add('liquid').kg - 1)).toBeLessThan(0.02);
    expect(add({ liquidShare: 0.25, sd: 0.1 }).sdKg).toBeGreaterThan(add('hot_vapour').sdKg);
  });

  it('gives no number where the property room has none', () => {
    const part = [{ what: 'line', kind: 'tube', size: '1/4', lengthM: 1, holds: 'liquid', sign: 1 }] as const;
    expect(isFailure(chargeByWeight(1, part, { ...conditions, refrigerant: 'R999' }))).toBe(true);
    expect(() => chargeByWeight(0, [], conditions)).toThrow(/above zero/);
  });
});
