import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import '@/lib/core/refrigerants';
import { isFailure } from '@/lib/core/refrigerants/api';
import { atPressure, atTemperature } from '@/lib/core/refrigerants/saturation-look-up';
import { fahrenheitToKelvin, PSI_PA } from '@/lib/core/measures';

describe('pressure–temperature look-up', () => {
  // 110 °F, psia: 161.07 for R-134a (fit to an independent library); sea level, 14.696 psi below it on a gauge.
  it('reads R-134a at 110 °F as the charts do', () => {
    const { dewPaGauge } = atTemperature('R134a', fahrenheitToKelvin(110), 0);
    expect((dewPaGauge as number) / PSI_PA).toBeCloseTo(161.07 - 14.696, 1);
  });

  it('reads higher on the same circuit at altitude', () => {
    const [sea, high] = [0, 1609].map((m) => atTemperature('R404A', 310, m).dewPaGauge as number);
    expect(high! - sea!).toBeGreaterThan(17_000);
    expect(high! - sea!).toBeLessThan(19_000);
  });

  it('goes there and back, and keeps bubble below dew', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('R134a', 'R290', 'R404A', 'R448A', 'R454C'),
        fc.double({ min: 235, max: 335, noNaN: true }),
        fc.double({ min: 0, max: 3000, noNaN: true }),
        (id, T, altitude) => {
          const p = atTemperature(id, T, altitude).dewPaGauge as number;
          const back = atPressure(id, p, altitude);
          expect(back.dewK as number).toBeCloseTo(T, 4);
          expect(back.glideK!).toBeGreaterThanOrEqual(-1e-6);
        },
      ),
    );
  });

  it('has no number above the critical point', () => {
    expect(isFailure(atTemperature('R134a', 400, 0).dewPaGauge)).toBe(true);
    expect(atPressure('R134a', 5e6, 0).meanK).toBeNull();
  });
});
