import { boxCurve, meet, type BoxCurve } from '../condenser/machine/box-curve';
import { airProfile, dayUse } from '../condenser/outlook/energy';
import { conductanceFromRise, modelOf } from '../condenser/machine/model';
import type { CleanBaseline, CondenserUnit, Conditions } from '../condenser';
import type { Limit } from '../fouling';
import type { LimitSettings } from '../intervals';

export type OwnLimits = {
  limits: Limit[];
  /** Where a breakdown is to be expected: the cut-out, or else the first limit of the machine itself; null when neither is reached. */
  failureLimit: Limit | null;
  /** Limits that this unit passes even with a clean coil on a hot day. */
  passedClean: string[];
  /** Extra energy, kWh a day, at deposits (−ln K) of 0, 0.1, 0.2 …; empty without numbers. Plain, so that it can be kept. */
  kwhPerDay: number[];
};

/** Deposits looked at: to 10 % of the clean conductance. */
const DEEPEST = 2.3;
const TABLE_STEP = 0.1;

/**
 * The unit's own limits turned into falls of ln K by the forward equations, at its kitchen's hot day and with its own
 * clean baseline; null where its refrigerant has no numbers there.
 */
export function ownLimits(unit: CondenserUnit, baseline: CleanBaseline, conditions: Conditions, settings: LimitSettings): OwnLimits | null {
  const model = modelOf(unit);
  if (!model) return null;
  const clean = conductanceFromRise(model, baseline.cleanRiseK);
  const profile = airProfile(conditions);
  const coolest = Math.min(conditions.hotDayAirK, ...profile.map((a) => a.airK));
  const lowest = Math.max(coolest, conditions.boxK - 15) + 1;
  const curve = lowest < model.ceilingK - 20 ? boxCurve(model, conditions.boxK, lowest, model.ceilingK) : null;
  const fresh = curve && meet(curve, clean, conditions.hotDayAirK);
  if (!curve || !fresh) return null;
  const at = (y: number) => meet(curve, clean * Math.exp(-y), conditions.hotDayAirK);
  const limits: Limit[] = [];
  const passedClean: string[] = [];
  // Where head would leave the computable range the limit is passed in any case.
  const add = (name: string, passed: (p: NonNullable<ReturnType<typeof at>>) => boolean) => {
    const over = (y: number) => {
      const p = at(y);
      return !p || passed(p);
    };
    if (over(0)) passedClean.push(name);
    else if (over(DEEPEST)) limits.push({ name, lnK: -edge(over) });
  };
  add('Cooling lost', (p) => 1 - p.cooling / fresh.cooling >= settings.coolingLost);
  add('Discharge temperature', (p) => p.dischargeK >= settings.dischargeK);
  const cutout = unit.cutoutPaGauge;
  if (cutout !== undefined) add('Head pressure', (p) => model.fluid.dewP(p.condensingDewK) - model.atmospherePa >= cutout);
  const hard = limits.find((l) => l.name === 'Head pressure') ?? limits.find((l) => l.name === 'Discharge temperature') ?? null;
  return {
    limits,
    failureLimit: hard,
    passedClean,
    kwhPerDay: energyTable(curve, clean, conditions, model.profile.cleanRunHoursPerDay, model.fanW),
  };
}

function edge(over: (y: number) => boolean): number {
  let [lo, hi] = [0, DEEPEST];
  while (hi - lo > 0.002) {
    const mid = (lo + hi) / 2;
    if (over(mid)) hi = mid;
    else lo = mid;
  }
  return hi;
}

function energyTable(curve: BoxCurve, clean: number, conditions: Conditions, usualHours: number, fanW: number): number[] {
  const share = Math.min(1, (conditions.cleanRunHoursPerDay ?? usualHours) / 24);
  const table: number[] = [];
  for (let i = 0; i * TABLE_STEP <= DEEPEST + 1e-9; i++) {
    const use = dayUse(curve, { now: clean * Math.exp(-i * TABLE_STEP), clean }, airProfile(conditions), share, fanW);
    // Where it cannot keep up it runs all day and the sum says no more; its last slope goes on.
    if (!use || (use.cannotKeepUp && table.length >= 2)) break;
    table.push(use.extra);
  }
  return table.length < 2 ? [] : table;
}

/** Extra energy, kWh a day, for a deposit (−ln K ≥ 0); NaN without numbers. Past the table its last slope goes on. */
export function extraKwh({ kwhPerDay: table }: Pick<OwnLimits, 'kwhPerDay'>, deposit: number): number {
  if (table.length < 2) return NaN;
  const x = Math.max(0, deposit) / TABLE_STEP;
  const i = Math.min(Math.floor(x), table.length - 2);
  return (table[i] as number) + (x - i) * ((table[i + 1] as number) - (table[i] as number));
}
