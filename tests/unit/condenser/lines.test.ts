import { expect, it } from 'vitest';
import { lineFigures } from '@/lib/core/condenser';
import { REACH_IN } from '@/tests/support/condenser';

const R134A = { ...REACH_IN, refrigerant: 'R134a', altitudeM: 0 } as const;
const gauge = (absoluteKPa: number) => absoluteKPa * 1000 - 101_325;
const reading = (over: object) =>
  ({ phase: 'before', at: 0, gaugeGrade: '1A', gaugeSpanPa: 3_447_379, ...over }) as Parameters<typeof lineFigures>[1];

// Saturation of R-134a as the ASHRAE Handbook of Fundamentals has it: 1016.6 kPa at 40 °C, 292.8 kPa at 0 °C.
it('superheat, subcooling and condensing over the water are what the tables of R-134a say', () => {
  const read = reading({
    headPaGauge: gauge(1016.6),
    liquidLineK: 273.15 + 34,
    suctionPaGauge: gauge(292.8),
    suctionLineK: 273.15 + 8,
    waterOutK: 273.15 + 33,
  });
  const { superheatK, subcoolingK, overWaterK } = lineFigures({ ...R134A, condenserKind: 'water_cooled' }, read);
  expect(superheatK?.value).toBeCloseTo(8, 1);
  expect(subcoolingK?.value).toBeCloseTo(6, 1);
  expect(overWaterK?.value).toBeCloseTo(7, 1);
  for (const f of [superheatK, subcoolingK, overWaterK]) expect([f && f.lo < f.value, f && f.value < f.hi]).toEqual([true, true]);
  // A unit cooled by air has no water to stand over.
  expect(lineFigures(R134A, read).overWaterK).toBeNull();
});

it('from a clamp on the bend, and nothing where one end was not read', () => {
  const byWater = { ...R134A, condenserKind: 'water_cooled' } as const;
  const clamped = lineFigures(byWater, reading({ condensingClampK: 273.15 + 40, waterOutK: 273.15 + 33 })).overWaterK;
  // The bend shows a little less than condensing.
  expect(clamped?.value).toBeGreaterThanOrEqual(7);
  expect(clamped?.value).toBeLessThan(9);
  expect(lineFigures(byWater, reading({ headPaGauge: gauge(1016.6) })).overWaterK).toBeNull();
});
