import { combine, figure, Z80 } from '../bands';
import { boxCurve, meet, type BoxCurve, type CurvePoint } from '../machine/box-curve';
import { cutoutAir } from './cutout';
import { airProfile, dayUse } from './energy';
import { isServed } from '../machine/cycle';
import type { UnitModel } from '../machine/model';
import type { Spread } from '../readings/spread';
import type { Conditions, Figure, NowAndClean } from '../types';

/**
 * Conductances now and clean, W/K, as logarithms with their spreads. `nowByRise` leaves the duty's error out: what
 * is wrong with the duty in reading K is wrong the same way in looking ahead, and does not move the head.
 */
export type Conductances = { now: Spread; nowByRise: Spread; clean: Spread };

/** One standard deviation of what compressor constants and evaporator leave open, relative to the figure itself. */
const LOSS_MODEL_SD = 0.06;
const ENERGY_MODEL_SD = 0.08;
/** Of a unit whose nominal cooling nobody entered, and of one whose plate was read. */
const SIZE_SD = { guessed: 0.4, known: 0.08 };
const RUN_HOURS_SD = 0.15;
/** Head pressure and gas temperature at a stated day: evaporator, superheat and shell are only typical. */
const HEAD_MODEL_SD = 0.018;
/** The clean head of a unit whose clean rise was learnt the way it is read now: most of that cancels. */
const LEARNT_HEAD_MODEL_SD = 0.009;
const DISCHARGE_MODEL_SD_K = { assumed: 5, measured: 3 };

export type Consequences = {
  coolingLostHotDay: Figure;
  extraEnergyKwhPerDay: Figure;
  cannotKeepUp: boolean;
  /** Null where the gas would be hotter than the properties reach. */
  dischargeHotDayK: NowAndClean | null;
  headHotDayPaGauge: NowAndClean;
};

export type Outlook = {
  curve: BoxCurve | null;
  consequences: Consequences | null;
  cutoutAirK: NowAndClean | null;
};

export type OutlookOptions = {
  /** The clean rise was learnt from readings taken the way this one was. */
  learnt: boolean;
  sizeKnown: boolean;
  /** Measured minus computed discharge temperature at the reading, K. */
  dischargeOffsetK?: number;
  cutoutPaGauge?: number;
};

/** Looks ahead with the coil as it is and as it would be clean, under the stated conditions. */
export function outlook(model: UnitModel, k: Conductances, conditions: Conditions, o: OutlookOptions): Outlook {
  const profile = airProfile(conditions);
  const coolest = Math.min(conditions.hotDayAirK, ...profile.map((a) => a.airK));
  const lowest = Math.max(coolest, conditions.boxK - 15) + 1;
  const hottest = Math.max(conditions.hotDayAirK, ...profile.map((a) => a.airK));
  const curve = curveOver(model, conditions.boxK, lowest, Math.min(model.ceilingK, hottest + HIGHEST_RISE_K));
  const cut = o.cutoutPaGauge === undefined ? null : cutoutAir(model, k, conditions.boxK, o.cutoutPaGauge);
  if (!curve) return { curve, consequences: null, cutoutAirK: cut };
  return { curve, consequences: worked(model, curve, k, conditions, o), cutoutAirK: cut };
}

/** Head never stands further above the air than this, K: something trips or breaks before. */
const HIGHEST_RISE_K = 60;

/** The curve as far up as the refrigerant's properties go. */
function curveOver(model: UnitModel, boxK: number, lo: number, hi: number): BoxCurve | null {
  for (let top = hi; top > lo + 20; top -= 12) {
    const curve = boxCurve(model, boxK, lo, top);
    if (curve) return curve;
  }
  return null;
}

function worked(model: UnitModel, curve: BoxCurve, k: Conductances, c: Conditions, o: OutlookOptions): Consequences | null {
  const profile = airProfile(c);
  const runShare = Math.min(1, (c.cleanRunHoursPerDay ?? model.profile.cleanRunHoursPerDay) / 24);
  const at = (now: number, clean: number) => {
    const a = meet(curve, Math.exp(now), c.hotDayAirK);
    const b = meet(curve, Math.exp(clean), c.hotDayAirK);
    const day = dayUse(curve, { now: Math.exp(now), clean: Math.exp(clean) }, profile, runShare, model.fanW);
    return a && b && day ? { a, b, day, lost: 1 - a.cooling / b.cooling } : null;
  };
  const mid = at(k.now.value, k.clean.value);
  if (!mid) return null;
  const moves = [
    [at(k.now.value + k.now.up, k.clean.value) ?? mid, at(k.now.value - k.now.down, k.clean.value) ?? mid],
    [at(k.now.value, k.clean.value + k.clean.up) ?? mid, at(k.now.value, k.clean.value - k.clean.down) ?? mid],
  ] as const;
  type Mid = typeof mid;
  const band = (read: (m: Mid) => number, ...own: number[]) => {
    const value = read(mid);
    const effects = moves.map(([x, y]) => [read(x), read(y)] as const);
    return combine(value, [...effects, ...own.map((sd) => [value + Z80 * sd, value - Z80 * sd] as const)]);
  };
  const alone = (s: Spread, read: (p: CurvePoint) => number, sd: (value: number) => number) => {
    const found = [s.value, s.value + s.up, s.value - s.down].map((x) => meet(curve, Math.exp(x), c.hotDayAirK));
    const [value, more, less] = found.map((p) => (p ? read(p) : undefined));
    if (value === undefined) return null;
    const own = Z80 * sd(value);
    return combine(value, [
      [more ?? value, less ?? value],
      [value + own, value - own],
    ]);
  };
  type Read = (p: CurvePoint) => number;
  type Sd = (value: number) => number;
  const pair = (read: Read, sd: Sd, cleanSd = sd): NowAndClean | null => {
    const now = alone(k.nowByRise, read, sd);
    const clean = alone(k.clean, read, cleanSd);
    return now && clean && { now, clean };
  };
  const extra = mid.day.extra;
  const scale = Math.hypot(o.sizeKnown ? SIZE_SD.known : SIZE_SD.guessed, RUN_HOURS_SD, ENERGY_MODEL_SD);
  const offset = o.dischargeOffsetK ?? 0;
  const dischargeSd = o.dischargeOffsetK === undefined ? DISCHARGE_MODEL_SD_K.assumed : DISCHARGE_MODEL_SD_K.measured;
  const dischargeHotDayK = pair(
    (p) => p.dischargeK + offset,
    () => dischargeSd,
  );
  const headHotDayPaGauge = pair(
    (p) => model.fluid.dewP(p.condensingDewK) - model.atmospherePa,
    (gauge) => HEAD_MODEL_SD * (gauge + model.atmospherePa),
    (gauge) => (o.learnt ? LEARNT_HEAD_MODEL_SD : HEAD_MODEL_SD) * (gauge + model.atmospherePa),
  );
  if (!headHotDayPaGauge) return null;
  const hottest = isServed(model.fluid, mid.a.dischargeK, model.fluid.dewP(mid.a.condensingDewK));
  return {
    coolingLostHotDay: neverBelowZero(band((m) => m.lost, LOSS_MODEL_SD * mid.lost)),
    extraEnergyKwhPerDay: neverBelowZero(band((m) => m.day.extra, scale * extra)),
    cannotKeepUp: mid.day.cannotKeepUp,
    dischargeHotDayK: hottest ? dischargeHotDayK : null,
    headHotDayPaGauge,
  };
}

/** A loss may come out negative by chance of measurement, but its band then reaches back to nothing lost. */
export function neverBelowZero(f: Figure): Figure {
  return f.hi < 0 ? figure(f.value, f.lo, 0) : f;
}
