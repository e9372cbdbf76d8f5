import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cleanPrior, conductanceOf, steadyState } from '@/lib/core/condenser';
import { extraKwh, ownLimits, type OwnLimits } from '@/lib/core/evidence';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { emptyFile } from './unit-file';

const file = emptyFile();
const baseline = cleanPrior(file.unit);
const own = ownLimits(file.unit, baseline, file.conditions, DEFAULT_POLICY.ownLimits) as OwnLimits;

describe('a unit’s own limits', () => {
  it('are where the forward equations meet them', () => {
    const clean = conductanceOf(file.unit, baseline.cleanRiseK) as number;
    const at = (lnK: number) => {
      const s = steadyState(file.unit, clean * Math.exp(lnK), { airK: file.conditions.hotDayAirK, boxK: file.conditions.boxK });
      if (s.status !== 'ok') throw new Error(s.message);
      return s;
    };
    const lnKOf = (name: string) => own.limits.find((l) => l.name === name)?.lnK as number;
    expect(1 - at(lnKOf('Cooling lost')).coolingW / at(0).coolingW).toBeCloseTo(DEFAULT_POLICY.ownLimits.coolingLost, 2);
    expect(at(lnKOf('Head pressure')).headPaGauge / (file.unit.cutoutPaGauge as number)).toBeCloseTo(1, 2);
    expect(Math.abs(at(lnKOf('Discharge temperature')).dischargeLineK - DEFAULT_POLICY.ownLimits.dischargeK)).toBeLessThan(0.5);
    expect(own.failureLimit?.name).toBe('Head pressure');
  });

  it('come sooner on a hotter day and later for a laxer shop', () => {
    const of = (hotDayAirK: number, coolingLost: number) =>
      ownLimits(file.unit, baseline, { ...file.conditions, hotDayAirK }, { coolingLost, dischargeK: 400 })?.limits.find(
        (l) => l.name === 'Cooling lost',
      )?.lnK as number;
    expect(of(311, 0.15)).toBeLessThan(of(311, 0.1));
    const head = (hotDayAirK: number) =>
      ownLimits(file.unit, baseline, { ...file.conditions, hotDayAirK }, DEFAULT_POLICY.ownLimits)?.limits.find(
        (l) => l.name === 'Head pressure',
      )?.lnK as number;
    expect(head(316)).toBeGreaterThan(head(308));
  });

  it('name a limit that even a clean coil passes, instead of blaming the coil', () => {
    const low = ownLimits({ ...file.unit, cutoutPaGauge: 0.9e6 }, baseline, file.conditions, DEFAULT_POLICY.ownLimits);
    expect(low?.passedClean).toContain('Head pressure');
    expect(low?.limits.map((l) => l.name)).not.toContain('Head pressure');
  });

  it('cost nothing when clean and more with every deposit', () => {
    expect(extraKwh(own, 0)).toBeCloseTo(0, 9);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        (y, more) => extraKwh(own, y + more) > extraKwh(own, y),
      ),
    );
    expect(extraKwh({ kwhPerDay: [] }, 1)).toBeNaN();
  });

  it('are not told for a refrigerant without numbers', () => {
    expect(ownLimits({ ...file.unit, refrigerant: 'R999' }, baseline, file.conditions, DEFAULT_POLICY.ownLimits)).toBeNull();
  });
});
