import { meet, type BoxCurve } from '../machine/box-curve';
import type { AirProfile } from '../../equipment/unit-fields';
import type { AirShare, CondenserUnit, Conditions } from '../types';

/** How far the usual day lies under the hot one when no profile is given, K. */
const USUAL_BELOW_HOT_K = 6;

/** How far under the hot day's air the coil's is, K, and for what part of the running time (judgement). */
const OVER_THE_YEAR: Record<AirProfile, readonly (readonly [belowK: number, share: number])[]> = {
  steady: [[2, 1]],
  cooking: [[1, 0.4], [8, 0.6]],
  season: [[3, 0.25], [10, 0.5], [18, 0.25]],
}; // prettier-ignore

/** Conditions with what is on file of the unit's own usual day, where nobody stated another. */
export function withUsualDay<C extends Conditions>(unit: Pick<CondenserUnit, 'airProfile' | 'runHoursPerDay'>, conditions: C): C {
  const { hotDayAirK } = conditions;
  const profile = unit.airProfile && OVER_THE_YEAR[unit.airProfile].map(([belowK, share]) => ({ airK: hotDayAirK - belowK, share }));
  return {
    ...conditions,
    cleanRunHoursPerDay: conditions.cleanRunHoursPerDay ?? unit.runHoursPerDay,
    airProfile: conditions.airProfile ?? profile,
  };
}

export function airProfile(conditions: Conditions): readonly AirShare[] {
  const given = conditions.airProfile?.filter((a) => a.share > 0) ?? [];
  if (given.length === 0) return [{ airK: conditions.hotDayAirK - USUAL_BELOW_HOT_K, share: 1 }];
  const sum = given.reduce((s, a) => s + a.share, 0);
  return given.map((a) => ({ airK: a.airK, share: a.share / sum }));
}

export type DayUse = {
  /** kWh a day, compressor and fans. */
  now: number;
  clean: number;
  extra: number;
  /** The fouled unit would need more than all day somewhere in the profile. */
  cannotKeepUp: boolean;
};

/**
 * Energy for the same duty over a day, fouled and clean. The clean unit runs the given part of the time; the
 * fouled one runs longer in proportion to the cooling it lost, at its higher power, up to all the time.
 * Null where a condition leaves the range.
 */
export function dayUse(
  curve: BoxCurve,
  k: { now: number; clean: number },
  profile: readonly AirShare[],
  cleanRunShare: number,
  fanW: number,
): DayUse | null {
  let now = 0;
  let clean = 0;
  let cannotKeepUp = false;
  for (const { airK, share } of profile) {
    const a = meet(curve, k.now, airK);
    const b = meet(curve, k.clean, airK);
    if (!a || !b || !(a.cooling > 0)) return null;
    const wanted = (cleanRunShare * b.cooling) / a.cooling;
    if (wanted > 1) cannotKeepUp = true;
    now += share * Math.min(1, wanted) * (a.power + fanW);
    clean += share * cleanRunShare * (b.power + fanW);
  }
  const kwh = 24 / 1000;
  return { now: now * kwh, clean: clean * kwh, extra: (now - clean) * kwh, cannotKeepUp };
}
