import { Z80 } from '../bands';
import { newOutcome, type Machine, type Outcome } from '../inference/equations';
import { settle } from '../inference/forward';
import type { Belief, Component } from '../inference/infer';
import type { Part } from '../inference/mixture';
import type { Scene } from '../inference/scene';
import { LEFT_WHEN_LEARNT, ROOM_TO_COIL, SOUND } from '../inference/priors';
import { covarianceOf, varianceOf } from '../inference/solve';
import * as S from '../inference/state';
import type { CauseId, CondenserUnit, Conditions } from '../types';
import { airProfile } from './energy';

/** What is looked ahead to, for the machine as it is and as it would be sound. */
export type Ahead = {
  lnCooling: number;
  extraKwh: number;
  cleanKwh: number;
  headNow: number;
  headClean: number;
  dischargeNow: number;
  dischargeClean: number;
  cutNow: number;
  cutClean: number;
  cannotKeepUp: boolean;
};

export type Outlook = {
  coolingLost: Part[];
  extraKwh: Part[];
  headNow: Part[];
  headClean: Part[];
  dischargeNow: Part[];
  dischargeClean: Part[];
  cutNow: Part[] | null;
  cutClean: Part[] | null;
  cannotKeepUp: boolean;
};

/** Model error of what is foretold, one sd; set on the outside plant, part A. Cooling: relative to the figure, then absolute. */
const MODEL = {
  cooling: { capillary: [0.36, 0.003], valve: [0.28, 0.003] },
  energy: 0.25,
  head: 0.02,
  dischargeK: { capillary: 2, valve: 1 },
  cutoutK: 1.2,
} as const;
/**
 * Part of what the reading leaves open that counts in what is lost, as the rest moves the worn machine and the sound one alike: with
 * line temperatures read and without. Set on the outside plant, part A.
 */
const OPEN = { cooling: { read: 0.75, unread: 0.5 }, energy: { read: 0.85, unread: 0.65 }, discharge: 0.93 } as const;
/** Size of a unit whose nominal cooling nobody entered, of one whose plate was read; run hours guessed and noted. */
const SIZE_SD = { guessed: 0.35, onFile: 0.08 } as const;
const RUN_HOURS_SD = { guessed: 0.15, onFile: 0.05 } as const;
/** A pressure switch opens within a few percent of its mark (common practice, from memory). */
const SWITCH_SD = 0.02;
/** Weights under this do not move a band. */
const LEAST = 0.04;

/** What each cause moved is put back to sound when the machine is imagined whole. */
const MOVED: Partial<Record<CauseId, readonly number[]>> = {
  non_condensables: [S.GAS],
  overcharge: [S.CHARGE],
  low_charge: [S.CHARGE, S.LN_VALVE],
  evaporator_coil: [S.LN_EVAP],
  evaporator_fan: [S.LN_EVAP],
  weak_compressor: [S.LN_PUMP],
};

/**
 * By how much discharge gas on the hot day stands off what the machine foretells under a cause, K, and how far that spreads besides: worn valves heat
 * it more than pumping twice says, a stopped evaporator fan's machine takes back liquid, one not yet steady has a cold shell. Set on A and C
 * to L of the outside plant, full set; rounded.
 */
const DISCHARGE_OFF: Partial<Record<CauseId, Partial<Record<CondenserUnit['expansion'], readonly [number, number]>>>> = {
  overcharge: { capillary: [-3, 3], valve: [2, 3] },
  evaporator_fan: { capillary: [-8, 4], valve: [2, 2] },
  weak_compressor: { capillary: [3, 2], valve: [7, 4] },
  not_steady: { capillary: [7, 4], valve: [10, 4] },
  low_charge: { valve: [0, 2] },
};

/**
 * Where the discharge line was read: by how much what is foretold moves too little or too far, and is open, per kelvin from the air and the box
 * of the reading to those of the hot day. Set on A and C to L of the outside plant.
 */
const AWAY = { air: [-0.09, 0.16], box: [0.13, 0.2] } as const;

const UNCERTAIN = [S.LN_K, S.GAS, S.LN_EVAP, S.LN_PUMP, S.GAIN, S.CHARGE, S.LN_VALVE, S.OVER] as const;
const NUDGE: Record<number, number> = { [S.LN_K]: 0.03, [S.GAS]: 0.01, [S.LN_EVAP]: 0.05, [S.LN_PUMP]: 0.02, [S.GAIN]: 0.02, [S.CHARGE]: 0.02, [S.LN_VALVE]: 0.03, [S.OVER]: 2 }; // prettier-ignore

export type OutlookInput = { belief: Belief; unit: CondenserUnit; conditions: Conditions };

type OnePart = { weight: number; at: Ahead; off: readonly [number, number] };

/** Figures for the hot day under each believed cause, as parts of a mixture; null where even the likeliest has no state. */
export function outlook(input: OutlookInput): Outlook | null {
  const { belief } = input;
  const { scene, plain } = belief;
  const apart = (c: Component) => c.solution !== plain || c.cause === 'recirculation';
  const weight = belief.components.reduce((a, c) => a + (apart(c) ? 0 : c.weight), 0);
  const others = belief.components.filter((c) => apart(c) && c.weight >= LEAST).slice(0, 3);
  const pair = settledPair(input, plain.x, plain.x[S.LN_K]!, null);
  const base = pair && looked(input, pair, null);
  if (!pair || !base) return null;
  const spreads = sensitivities(input, pair, base);
  const parts: OnePart[] = [];
  const sum = weight + others.reduce((a, c) => a + c.weight, 0);
  if (weight > 0) parts.push({ weight: weight / sum, at: base, off: [0, 0] });
  for (const c of others) {
    const own = settledPair(input, c.solution.x, c.cause in HINDERED ? c.solution.x[S.LN_K]! : scene.lnClean - c.loss, c);
    const off = DISCHARGE_OFF[c.cause]?.[input.unit.expansion] ?? [0, 0];
    parts.push({ weight: c.weight / sum, at: (own && looked(input, own, base)) ?? base, off });
  }
  return assembled(input, parts, spreads);
}

/** Causes whose loss of conductance the machine's own equations work out from gas or liquid. */
const HINDERED: Partial<Record<CauseId, true>> = { non_condensables: true, overcharge: true };

/** How much hotter than the room its coil breathes, beyond what is usual, K. */
function comingRound({ belief }: OutlookInput, cause: Component | null): number {
  const { airInK, roomAirK } = belief.scene.reading;
  if (cause?.cause !== 'recirculation' || roomAirK === undefined) return 0;
  return Math.max(0, (airInK ?? cause.solution.x[S.AIR]!) - roomAirK - ROOM_TO_COIL.usual[0]);
}

/** A machine on the hot day, as it is and whole: states and outcomes. */
type Pair = { worn: Machine; now: Float64Array; clean: Float64Array; a: Outcome; b: Outcome; round: number };

function settledPair(input: OutlookInput, from: Float64Array, lnK: number, cause: Component | null): Pair | null {
  const { belief, conditions } = input;
  const { machine, sound, lnClean } = belief.scene;
  const round = comingRound(input, cause);
  const now = Float64Array.from(from);
  now[S.LN_K] = lnK;
  aimed(machine, now, conditions.hotDayAirK, lnK);
  const a = newOutcome();
  const at = { airK: conditions.hotDayAirK, boxK: conditions.boxK };
  const worn = cause?.cause === 'weak_compressor' ? { ...machine, leaking: true } : machine;
  if (!settle(worn, now, { ...at, airK: at.airK + round }, a)) return null;
  const clean = Float64Array.from(cause ? from : now);
  clean[S.LN_K] = lnClean;
  for (const i of (cause && MOVED[cause.cause]) ?? []) clean[i] = sound.mean[i]!;
  if (cause) {
    clean[S.FLOODED] = machine.floodedRef;
    clean[S.DRY] = machine.dryRef;
  }
  aimed(machine, clean, conditions.hotDayAirK, lnClean);
  const b = newOutcome();
  if (!settle(machine, clean, at, b) || !(a.cooling > 0 && b.cooling > 0) || now[S.TC]! > machine.fluid.hiK + 3) return null;
  return { worn, now, clean, a, b, round };
}

/** What a pair comes to; `like` lends its cut-out, shifted by the head, where working it out anew is not worth it. */
function looked({ belief, unit, conditions }: OutlookInput, pair: Pair, like: Ahead | null): Ahead | null {
  const { machine, atmospherePa } = belief.scene;
  const { now, clean, a, b } = pair;
  const day = dayUse(machine, pair, conditions);
  if (!day) return null;
  const mark = unit.cutoutPaGauge === undefined ? undefined : unit.cutoutPaGauge + atmospherePa;
  const cut = (from: Float64Array, o: Outcome, near: number | undefined, nearHead: number | undefined) =>
    mark === undefined
      ? NaN
      : near !== undefined && nearHead !== undefined
        ? near - Math.log(o.headPa / nearHead) / machine.beta
        : cutoutAir(machine, from, conditions.boxK, mark, o.riseK);
  return {
    lnCooling: Math.log(a.cooling / b.cooling),
    ...day,
    headNow: a.headPa,
    headClean: b.headPa,
    dischargeNow: a.dischargeK,
    dischargeClean: b.dischargeK,
    cutNow: cut(now, a, like?.cutNow, like?.headNow),
    cutClean: cut(clean, b, like?.cutClean, like?.headClean),
  };
}

/** A start near where it will settle. */
function aimed(machine: Machine, x: Float64Array, airK: number, lnK: number): void {
  const rise = machine.profile.cleanRiseK * Math.exp(-0.8 * lnK);
  x[S.TC] = Math.min(machine.fluid.hiK - 2, airK + rise + machine.fluid.glide(x[S.TC]!) / 2);
}

/** Energy for the same duty over a day. The sound unit runs its part of the time; the other longer, up to all of it. */
function dayUse(
  machine: Machine,
  { worn, now, clean, round }: Pair,
  conditions: Conditions,
): Pick<Ahead, 'extraKwh' | 'cleanKwh' | 'cannotKeepUp'> | null {
  const share = Math.min(1, (conditions.cleanRunHoursPerDay ?? machine.profile.cleanRunHoursPerDay) / 24);
  const a = newOutcome();
  const b = newOutcome();
  const x = Float64Array.from(now);
  const y = Float64Array.from(clean);
  const kwh = (machine.scale * 24) / 1000;
  let extra = 0;
  let whole = 0;
  let cannotKeepUp = false;
  for (const { airK, share: part } of airProfile(conditions)) {
    const at = { airK, boxK: conditions.boxK };
    const shift = airK - y[S.AIR]!;
    x[S.TC] = x[S.TC]! + shift;
    y[S.TC] = y[S.TC]! + shift;
    if (!settle(worn, x, { ...at, airK: airK + round }, a) || !settle(machine, y, at, b) || !(a.cooling > 0)) return null;
    const fans = machine.profile.fanShare * b.power;
    const wanted = (share * b.cooling) / a.cooling;
    if (wanted > 1) cannotKeepUp = true;
    whole += part * share * (b.power + fans);
    extra += part * (Math.min(1, wanted) * (a.power + fans) - share * (b.power + fans));
  }
  return { extraKwh: extra * kwh, cleanKwh: whole * kwh, cannotKeepUp };
}

/** Coil air at which head reaches a mark, by secant on air temperature, K. */
function cutoutAir(machine: Machine, from: Float64Array, boxK: number, mark: number, riseK: number): number {
  const x = Float64Array.from(from);
  const o: Outcome = newOutcome();
  const { fluid } = machine;
  const dew = fluid.dewT(mark);
  let airK = dew - fluid.glide(dew) / 2 - riseK;
  for (let i = 0; i < 3; i++) {
    x[S.TC] = x[S.TC]! + airK - x[S.AIR]!;
    if (!settle(machine, x, { airK, boxK }, o)) return NaN;
    const miss = (Math.log(mark) - Math.log(o.headPa)) / machine.beta;
    airK += miss;
    if (Math.abs(miss) < 0.1) return airK;
  }
  return airK;
}

const KEYS = ['lnCooling', 'extraKwh', 'headNow', 'headClean', 'dischargeNow', 'dischargeClean'] as const;
type Spreads = Record<(typeof KEYS)[number], number>;

/** The figures of a nudged pair, with the energy by the hot day's power for the same duty. */
function nudged(a: Outcome, b: Outcome, base: Ahead): Record<(typeof KEYS)[number], number> {
  const ratio = (a.power * b.cooling) / (b.power * a.cooling);
  return {
    lnCooling: Math.log(a.cooling / b.cooling),
    extraKwh: base.cleanKwh * ratio,
    headNow: a.headPa,
    headClean: b.headPa,
    dischargeNow: a.dischargeK,
    dischargeClean: b.dischargeK,
  };
}

/** One sd of each figure from what the reading leaves open of the machine, and from the clean value. */
function sensitivities({ belief, conditions }: OutlookInput, pair: Pair, base: Ahead): Spreads {
  const { plain, scene } = belief;
  const { machine } = scene;
  const at = { airK: conditions.hotDayAirK, boxK: conditions.boxK };
  const n = UNCERTAIN.length;
  const g = KEYS.map(() => new Float64Array(n + 1));
  const before = nudged(pair.a, pair.b, base);
  const x = new Float64Array(pair.now.length);
  const moved = (from: Float64Array, index: number, by: number, into: Outcome): Outcome | null => {
    x.set(from);
    x[index] = x[index]! + by;
    return settle(machine, x, at, into, true) ? { ...into } : null;
  };
  const o = newOutcome();
  const note = (i: number, after: ReturnType<typeof nudged>, h: number) => KEYS.forEach((k, j) => (g[j]![i] = (after[k] - before[k]) / h));
  // One machine after the other, as the slopes of a nudge serve the next.
  const worn = UNCERTAIN.map((index) => moved(pair.now, index, NUDGE[index]!, o));
  UNCERTAIN.forEach((index, i) => {
    const h = NUDGE[index]!;
    const now = worn[i];
    const clean = index === S.LN_K ? pair.b : moved(pair.clean, index, h, o);
    if (now && clean) note(i, nudged(now, clean, base), h);
  });
  const cleaner = moved(pair.clean, S.LN_K, 0.03, o);
  if (cleaner) note(n, nudged(pair.a, cleaner, base), 0.03);
  const own = neverLearnt(belief);
  const cov = covarianceOf(plain);
  return Object.fromEntries(
    KEYS.map((k, j) => {
      let v = (g[j]![n]! * scene.lnCleanSd) ** 2;
      if (k === 'dischargeNow' || k === 'dischargeClean') v += own;
      for (let p = 0; p < n; p++) for (let q = 0; q < n; q++) v += g[j]![p]! * g[j]![q]! * cov[UNCERTAIN[p]! * S.UNKNOWNS + UNCERTAIN[q]!]!;
      return [k, Math.sqrt(Math.max(0, v))];
    }),
  ) as Spreads;
}

/** A baseline tells of the conductance alone: of the gas at the discharge, as far as nobody measured it, as much is open as before. K². */
function neverLearnt({ plain, scene }: Belief): number {
  if (!scene.learnt) return 0;
  const left = varianceOf(plain, S.OVER) / (scene.sound.sd[S.OVER] ?? 1) ** 2;
  return (SOUND.overK * left) ** 2 * (1 - LEFT_WHEN_LEARNT ** 2);
}

function away({ reading, sound }: Scene, { hotDayAirK, boxK }: Conditions): readonly [number, number] {
  if (reading.dischargeLineK === undefined) return [0, 0];
  const air = hotDayAirK - sound.mean[S.AIR]!;
  const box = (reading.boxK ?? boxK) - boxK;
  return [AWAY.air[0] * air + AWAY.box[0] * box, Math.hypot(AWAY.air[1] * air, AWAY.box[1] * box)];
}

function assembled({ belief, unit, conditions }: OutlookInput, parts: readonly OnePart[], s: Spreads): Outlook {
  type Read = (a: Ahead, off: OnePart['off']) => number;
  const even = (read: Read, sd: Read): Part[] =>
    parts.map(({ weight, at, off }) => ({ weight, value: read(at, off), down: sd(at, off), up: sd(at, off) }));
  const [relative, absolute] = MODEL.cooling[unit.expansion];
  const lines = belief.scene.reading.suctionLineK === undefined ? 'unread' : 'read';
  const open = { cooling: OPEN.cooling[lines] * s.lnCooling, energy: OPEN.energy[lines] * s.extraKwh, discharge: OPEN.discharge };
  const sizeKnown = unit.nominalCoolingW !== undefined || unit.compressorMap !== undefined;
  const scale = Math.hypot(
    sizeKnown ? SIZE_SD.onFile : SIZE_SD.guessed,
    conditions.cleanRunHoursPerDay === undefined ? RUN_HOURS_SD.guessed : RUN_HOURS_SD.onFile,
    MODEL.energy,
  );
  const { beta } = belief.scene.machine;
  const cutSd = (head: number, sd: number) => Math.hypot(sd / (head * beta), MODEL.cutoutK, SWITCH_SD / beta);
  const [moved, movedSd] = away(belief.scene, conditions);
  const cuts = parts.every(({ at }) => Number.isFinite(at.cutNow) && Number.isFinite(at.cutClean));
  return {
    coolingLost: even(
      (a) => -a.lnCooling,
      (a) => Math.hypot(open.cooling, relative * a.lnCooling, absolute),
    ),
    extraKwh: parts.map(({ weight, at }) => {
      const size = Math.abs(at.extraKwh);
      return {
        weight,
        value: at.extraKwh,
        down: Math.hypot(open.energy, (size * -Math.expm1(-Z80 * scale)) / Z80),
        up: Math.hypot(open.energy, (size * Math.expm1(Z80 * scale)) / Z80),
      };
    }),
    headNow: even(
      (a) => a.headNow,
      (a) => Math.hypot(s.headNow, MODEL.head * a.headNow),
    ),
    headClean: even(
      (a) => a.headClean,
      (a) => Math.hypot(s.headClean, MODEL.head * a.headClean),
    ),
    dischargeNow: even(
      (a, off) => a.dischargeNow + off[0] + moved,
      (_, off) => Math.hypot(open.discharge * s.dischargeNow, MODEL.dischargeK[unit.expansion], off[1], movedSd),
    ),
    dischargeClean: even(
      (a) => a.dischargeClean + moved,
      () => Math.hypot(open.discharge * s.dischargeClean, MODEL.dischargeK[unit.expansion], movedSd),
    ),
    cutNow: cuts
      ? even(
          (a) => a.cutNow,
          (a) => cutSd(a.headNow, s.headNow),
        )
      : null,
    cutClean: cuts
      ? even(
          (a) => a.cutClean,
          (a) => cutSd(a.headClean, s.headClean),
        )
      : null,
    cannotKeepUp: parts[0]?.at.cannotKeepUp ?? false,
  };
}
