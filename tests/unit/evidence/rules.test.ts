import { describe, expect, it } from 'vitest';
import { heldWords, returnVisits } from '@/lib/core/evidence';
import { DEFAULT_POLICY, readPolicy } from '@/lib/core/intervals';
import { PolicyForm, policyFromForm } from '@/lib/schemas/shop/policy';
import { on } from './unit-file';

const found = (aspect: 'coil' | 'ice' | 'drain', grade: string, phase: 'found' | 'left' = 'found') => ({
  on: on('2026-03-01'),
  aspect,
  grade,
  phase,
});

describe('return visits', () => {
  it.each([
    [found('coil', 'packed'), 'coil_packed'],
    [found('ice', 'block'), 'ice_block'],
    [found('drain', 'blocked'), 'drain_blocked'],
    [found('drain', 'frozen'), 'drain_blocked'],
  ])('are asked for by %o', (finding, cause) => {
    expect(returnVisits(on('2026-03-01'), [finding], false, 7)).toMatchObject([{ cause, dueOn: '2026-03-08' }]);
  });

  it('are not asked for by milder findings, by what was left, or by another day', () => {
    const mild = [found('coil', 'matted'), found('ice', 'bridged'), found('drain', 'slow'), found('coil', 'packed', 'left')];
    expect(returnVisits(on('2026-03-01'), mild, false, 7)).toEqual([]);
    expect(returnVisits(on('2026-03-02'), [found('coil', 'packed')], false, 7)).toEqual([]);
    expect(returnVisits(on('2026-03-01'), [], true, 3)).toMatchObject([{ cause: 'high_pressure_trip', dueOn: '2026-03-04' }]);
  });
});

describe('the shop’s policy', () => {
  it('is what the program brings where nothing, or something broken, is on file', () => {
    expect(readPolicy(null)).toEqual(DEFAULT_POLICY);
    expect(readPolicy({ risk: 'much', limits: [], ownLimits: { coolingLost: 0.2 }, cleaningCost: 75 })).toEqual({
      ...DEFAULT_POLICY,
      cleaningCost: 75,
    });
    const older = { maxWeeks: { coil_cleaning: 30 } };
    expect(readPolicy(older).maxWeeks).toEqual({ ...DEFAULT_POLICY.maxWeeks, coil_cleaning: 30 });
  });

  const form = {
    seen: 'x',
    riskPercent: '10',
    packedRiskPercent: '4',
    coolingLostPercent: '8',
    discharge: '215',
    degrees: 'F',
    cleaningCost: '80',
    tripCost: '20',
    deepCleaningCost: '200',
    comebackCost: '150',
    inspectionCost: '25',
    failureCost: '900',
    hiddenFailureCostPerDay: '15',
    energyCostPerDayPerLnK: '0.8',
    minWeeks: '2',
    minWeeksUnlessSevere: '4',
    coil_cleaning: '52',
    drain_inspection: '26',
    evaporator_inspection: '26',
    lateDays: '4',
    returnWithinDays: '7',
    cleanFindings: '2',
  };
  const typed = (over: Partial<typeof form>) => {
    const all = Object.entries({ ...form, ...over }).map(([k, v]) => [k, k === 'seen' || k === 'degrees' ? v : Number(v)]);
    const { coil_cleaning, drain_inspection, evaporator_inspection, ...rest } = Object.fromEntries(all) as Record<string, unknown>;
    return { ...rest, maxWeeks: { coil_cleaning, drain_inspection, evaporator_inspection } };
  };

  it('takes percents and degrees as they are typed', () => {
    const rules = policyFromForm(DEFAULT_POLICY, PolicyForm.parse(typed({})));
    expect(rules).toMatchObject({ risk: 0.1, cleaningCost: 80, ownLimits: { coolingLost: 0.08 } });
    expect(rules.ownLimits.dischargeK).toBeCloseTo(374.82, 2);
    expect(policyFromForm(DEFAULT_POLICY, PolicyForm.parse(typed({ degrees: 'C', discharge: '100' }))).ownLimits.dischargeK).toBeCloseTo(
      373.15,
      2,
    );
    expect(readPolicy(JSON.parse(JSON.stringify(rules)))).toEqual(rules);
  });

  it('says beside the field what cannot be', () => {
    const fields = (over: Partial<typeof form>) => PolicyForm.safeParse(typed(over)).error?.issues.map((i) => i.path.at(-1));
    expect(fields({ riskPercent: '0' })).toEqual(['riskPercent']);
    expect(fields({ discharge: '20' })).toEqual(['discharge']);
    expect(fields({ coil_cleaning: '3' })).toEqual(['coil_cleaning']);
    expect(fields({ minWeeksUnlessSevere: '1' })).toEqual(['minWeeksUnlessSevere']);
  });
});

it('tells what a lock or a contract held back', () => {
  expect(heldWords('Packed at 62 days; …', true)).toBe('Locked, so nothing moved. Without that: packed at 62 days; …');
  expect(heldWords('Drain found blocked.', false)).toMatch(/^On the contract’s dates/);
});
