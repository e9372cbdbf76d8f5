import { describe, expect, it } from 'vitest';
import {
  readMap,
  steadyState,
  superheatFactor,
  tenCoefficients,
  type CompressorMap,
  type CondenserUnit,
  type TenCoefficients,
} from '@/lib/core/condenser';
import { unwrap, vapour } from '@/lib/core/refrigerants';
import { ACHP_MAP, F, REACH_IN } from '../../support/condenser';

describe('a ten-coefficient map', () => {
  it('puts each coefficient on its own power', () => {
    const [s, d] = [3, 7];
    const powers = [1, s, d, s * s, s * d, d * d, s ** 3, d * s * s, s * d * d, d ** 3];
    powers.forEach((power, i) => {
      const one = powers.map((_, k) => (k === i ? 1 : 0)) as unknown as TenCoefficients;
      expect(tenCoefficients(one, s, d)).toBe(power);
    });
  });

  it('reads the same map in either units', () => {
    const celsius: CompressorMap = { ...ACHP_MAP, units: 'C_kg_per_s', massFlow: [0.05, 1e-3, 0, 0, 0, 0, 0, 0, 0, 0] };
    expect(readMap(celsius, 273.15 + 10, 320).massFlow).toBeCloseTo(0.06, 12);
    expect((readMap(ACHP_MAP, F(45), F(100)).massFlow * 3600) / 0.45359237).toBeCloseTo(478.992, 3);
  });

  it('corrects flow for superheat by three quarters of the density ratio', () => {
    expect(superheatFactor(1, 1)).toBe(1);
    expect(superheatFactor(0.9, 1)).toBeCloseTo(0.925, 12);
    // Colder suction gas is denser: more flow than the map says.
    const warm = unwrap(vapour('R410A', { T: F(65), p: 9e5 })).rho;
    const cool = unwrap(vapour('R410A', { T: F(52), p: 9e5 })).rho;
    expect(superheatFactor(cool, warm)).toBeGreaterThan(1);
  });

  it('takes the place of typical constants in a unit that has one', () => {
    const unit: CondenserUnit = { ...REACH_IN, refrigerant: 'R22', compressorMap: ACHP_MAP, cutoutPaGauge: undefined };
    const s = steadyState(unit, 700, { airK: F(90), boxK: F(38) });
    if (s.status !== 'ok') throw new Error(s.message);
    const read = readMap(ACHP_MAP, s.evaporatingDewK, s.condensingDewK);
    expect(s.powerW).toBeCloseTo(read.power, 6);
    // Superheat is the map's own, so hardly any correction is left.
    expect(s.massFlow / read.massFlow).toBeCloseTo(1, 6);
  });
});
