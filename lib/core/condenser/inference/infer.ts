import { BLANKET } from '../condenser/zones';
import { OWN_PARTS, type CauseId, type OwnMachine } from '../types';
import { airside } from './airside';
import { calibrated } from './calibrated';
import { evidenceOf } from './evidence';
import { coilGradeGiven, looksGiven, type Starved } from './looks';
import { againGiven, airError, boxGiven, roomGiven, standingGiven } from './outside';
import {
  BARE_TUBE,
  BEFORE,
  BOX,
  dirtBeside,
  LOADED_TOO,
  LOSS,
  MODEL_ERROR,
  OFF,
  ROOM_TO_COIL,
  SHIFTS,
  UNREAD_AIR,
  UNSTEADY_UNKNOWN,
  LOOSE_DIRT,
  DEPTH_ERROR,
  FIRST,
  SETTLING,
  REPEATED,
  TRUST,
} from './priors';
import { airSdOf, type Scene } from './scene';
import type { Machine } from './equations';
import { solve, solveWell, varianceOf, type Channel, type Seen, type Solution } from './solve';
import * as S from './state';
import { MOVES, type Way } from './together';

/** One way in which the reading could have come about, and how much it is believed. */
export type Component = {
  cause: CauseId;
  weight: number;
  solution: Solution;
  /** Loss of condenser conductance, −ln(K/K_clean), under it: mean and sd. */
  loss: number;
  lossSd: number;
};

export type Belief = {
  scene: Scene;
  /** Sorted, heaviest first, as the evidence weighs them. A cause may stand here more than once. */
  components: readonly Component[];
  /** The same by cause, as often as they come. */
  probability: Record<CauseId, number>;
  /** ln(K/K_reference) as the reading alone shows it with nothing else wrong, and its sd. */
  measured: { lnK: number; sd: number; repeatSd: number };
  /** The state with nothing wrong but the condenser, from which `measured` comes. */
  plain: Solution;
};

type Shifted = {
  cause: CauseId;
  prior: S.Prior;
  share: number;
  seen?: readonly Seen[];
  machine?: Machine;
  by?: Starved;
  way?: Way;
  /** It is the air's thermometer that is off, and by how much as expected, K. */
  air?: number;
};

/** Every hypothesis weighed against one reading; null where the numbers leave the refrigerant's range. */
export function infer(scene: Scene, doubts: number): Belief | null {
  const found = plainOf(scene);
  if (!found) return null;
  const { plain, measured } = found;
  const priors = before(scene, doubts);
  const lnChance = (h: Pick<Shifted, 'cause' | 'share' | 'by' | 'air'>, solution: Solution) =>
    Math.log(priors[h.cause] * h.share * outside(scene, h, solution));
  const parts = [found, bareTube(scene)].flatMap((sound) =>
    !sound
      ? []
      : airside(scene, sound.measured, priors).map(({ cause, lnEvidence, loss, lossSd }) => ({
          cause,
          ln: TRUST * lnEvidence + lnChance({ cause, share: sound.share }, sound.plain),
          solution: sound.plain,
          loss,
          lossSd,
        })),
  );
  const own = shifted(scene, found).flatMap((h) => {
    const { cause } = h;
    const solution = solve(h.machine ?? scene.machine, h.prior, h.seen ?? scene.seen, startOf(scene, h.prior));
    if (!solution) return [];
    const { loss, lossSd } = lossUnder(scene, solution, h.prior, cause);
    const { coilGrade } = scene.reading;
    const graded = cause === 'coil_fouling' && coilGrade ? coilGradeGiven(coilGrade, loss) : 1;
    const ln = TRUST * lnEvidenceIn(scene, solution, h) + lnChance({ ...h, share: h.share * graded }, solution) + lnMet(scene, h);
    return [{ cause, ln, solution, loss, lossSd }];
  });
  const all = [...parts, ...own];
  const top = Math.max(...all.map((c) => c.ln));
  if (!Number.isFinite(top)) return null;
  const weighed = all.map(({ ln, ...c }) => ({ ...c, weight: Math.exp(ln - top) }));
  const sum = weighed.reduce((a, c) => a + c.weight, 0);
  const components = weighed.map((c) => ({ ...c, weight: c.weight / sum })).sort((a, b) => b.weight - a.weight);
  const raw = Object.fromEntries(Object.keys(BEFORE).map((c) => [c, 0])) as Record<CauseId, number>;
  for (const c of components) raw[c.cause] += c.weight;
  return {
    scene,
    components,
    probability: calibrated(raw, scene.reading),
    measured: { lnK: measured.mean, sd: measured.sd, repeatSd: repeatSd(scene, plain, measured.sd) },
    plain,
  };
}

/** ln(K/K_reference) as one reading shows it with nothing else wrong; null where it cannot be worked out. */
export function conductanceSeen(scene: Scene): { lnK: number; sd: number; repeatSd: number } | null {
  const found = plainOf(scene);
  return found && { lnK: found.measured.mean, sd: found.measured.sd, repeatSd: repeatSd(scene, found.plain, found.measured.sd) };
}

/** How far the machine stands from what is usual for its kind, as one reading shows it with nothing else wrong; null where it tells nothing of that. */
export function ownSeen(scene: Scene): OwnMachine | null {
  const parts = OWN_PARTS.filter((part) => scene.reading[S.OWN[part][1]] !== undefined);
  const found = parts.length > 0 ? plainOf(scene) : null;
  if (!found) return null;
  const own: OwnMachine = {};
  for (const part of parts) {
    const i = S.OWN[part][0];
    own[part] = Number((found.plain.x[i]! - scene.sound.mean[i]!).toPrecision(4));
  }
  return own;
}

/** A machine as one reading shows it with nothing else wrong: ln of heat rejected over rise, power and cooling, W and K; null where it cannot be worked out. */
export function runningSeen(scene: Scene): { lnK: number; lnPower: number; lnCooling: number; riseK: number } | null {
  const o = plainOf(scene)?.plain.outcome;
  if (!o || !(o.riseK > 0)) return null;
  const { scale } = scene.machine;
  const seen = {
    lnK: Math.log(o.heatRejected / o.riseK),
    lnPower: Math.log(o.power * scale),
    lnCooling: Math.log(o.cooling * scale),
    riseK: o.riseK,
  };
  return Object.values(seen).every(Number.isFinite) ? seen : null;
}

type Plain = { plain: Solution; measured: LikelihoodOfK; share: number };

function plainOf(scene: Scene, bare = false): Plain | null {
  const prior = copy(scene.sound);
  prior.mean[S.LN_K] = scene.lnClean - 0.3;
  if (bare) [prior.mean[S.GAIN], prior.sd[S.GAIN]] = BARE_TUBE.gain;
  const plain = solveWell(scene.machine, prior, scene.seen, scene.start);
  if (!plain) return null;
  const measured = likelihoodOfK(plain, prior, lnEvidenceIn(scene, plain, { prior }));
  return measured.sd > 0 ? { plain, measured, share: bare ? BARE_TUBE.share : 1 } : null;
}

/** A tube that hangs free of the suction line, until readings after cleanings have told: that line is cold, and nothing is wrong. */
function bareTube(scene: Scene): Plain | null {
  const open = scene.machine.capillary && !scene.learnt && scene.reading.suctionLineK !== undefined;
  return open ? plainOf(scene, true) : null;
}

type Weighable = Pick<Shifted, 'prior' | 'seen' | 'way'>;

/** As its solution has it, or with what hangs together: that was measured on readings with line temperatures, and holds there. */
function lnEvidenceIn({ reading, machine, sound, learnt, seen }: Scene, solution: Solution, h: Weighable): number {
  if (reading.suctionLineK === undefined) return solution.lnEvidence + solution.lnJacobian;
  return evidenceOf(solution, h.seen ?? seen, { prior: h.prior, sound, way: h.way, capillary: machine.capillary, learnt });
}

const lnMet = ({ reading, machine }: Scene, { way }: Weighable): number =>
  way && reading.suctionLineK !== undefined ? MOVES[way][machine.capillary ? 'capillary' : 'valve'].lnMet : 0;

const copy = (p: S.Prior): S.Prior => ({ mean: Float64Array.from(p.mean), sd: Float64Array.from(p.sd) });

export type LikelihoodOfK = { mean: number; sd: number; /** ln evidence per unit density at its mean. */ ln: number };

/** The reading's own word on ln K: the posterior with its wide prior taken out again. */
function likelihoodOfK(plain: Solution, prior: S.Prior, lnEvidence: number): LikelihoodOfK {
  const m1 = plain.x[S.LN_K]!;
  const v1 = varianceOf(plain, S.LN_K);
  const [m0, v0] = [prior.mean[S.LN_K]!, prior.sd[S.LN_K]! ** 2];
  const v = 1 / Math.max(1e-6, 1 / v1 - 1 / v0);
  const mean = v * (m1 / v1 - m0 / v0);
  return { mean, sd: Math.sqrt(v), ln: lnEvidence + 0.5 * ((mean - m0) ** 2 / (v0 + v) + Math.log(v0 + v)) };
}

/**
 * One sd of −ln(K/K_clean): the reading's own, that of the clean value, and a model error that grows with what is lost. Against
 * a baseline learnt by the same means, errors that stay with an instrument cancel in part.
 */
export function lossSpread(scene: Scene, measuredSd: number, loss: number): number {
  return Math.hypot((scene.learnt ? REPEATED : FIRST) * measuredSd, scene.lnCleanSd, DEPTH_ERROR * Math.max(0, loss));
}

/** What of the error changes from one reading of the unit to the next: the unit's own errors held at a part. */
function repeatSd(scene: Scene, plain: Solution, sd: number): number {
  const rise = Math.max(3, plain.outcome.riseK);
  const own = Math.hypot(
    MODEL_ERROR.condenser,
    scene.reading.suctionPaGauge === undefined ? 0.06 : 0.02,
    scene.reading.headPaGauge === undefined ? 1.2 / rise : 0,
  );
  return Math.sqrt(Math.max((0.45 * sd) ** 2, sd * sd - own * own));
}

function before(scene: Scene, doubts: number): Record<CauseId, number> {
  const p = { ...BEFORE };
  const { reading, unit } = scene;
  if (reading.steadyMinutes === undefined) p.not_steady = UNSTEADY_UNKNOWN;
  // Nobody measured what the coil breathes: where the rise is high, that is the first question.
  if (reading.airInK === undefined) p.recirculation *= UNREAD_AIR;
  if (doubts > 0) p.reading_fault *= 1 + 3 * doubts;
  if (reading.phase === 'after') {
    p.nothing += 0.6 * p.coil_fouling;
    p.coil_fouling *= 0.4;
  }
  const control = unit.hasHeadControl;
  const usual = unit.placement === 'outdoors' || unit.kind === 'remote_condensing_unit';
  p.head_pressure_control = control === false ? 0 : control || usual ? 0.5 : 0.02;
  return p;
}

/** Evidence that does not pass through the machine: looks, box, air read elsewhere or again, standing pressure, earlier readings. */
function outside(scene: Scene, { cause, by, air }: Pick<Shifted, 'cause' | 'by' | 'air'>, solution: Solution): number {
  const standing = scene.reading.offCyclePaGauge !== undefined;
  return (
    boxGiven(scene, cause) *
    roomGiven(scene, cause) *
    againGiven(scene, air) *
    standingGiven(scene, cause, standing ? airError(scene, solution) : undefined) *
    looksGiven(scene.reading, cause, by)
  );
}

function startOf(scene: Scene, prior: S.Prior): Float64Array {
  const x = Float64Array.from(scene.start);
  for (const i of [S.GAS, S.LN_EVAP, S.LN_PUMP, S.CHARGE, S.LN_VALVE, S.AIR, S.BOX]) x[i] = prior.mean[i]!;
  x[S.TC] = x[S.TC]! - Math.log1p(Math.max(0, x[S.GAS]!)) / scene.machine.beta;
  x[S.FLOODED] = x[S.FLOODED]! + prior.mean[S.CHARGE]!;
  if (prior.mean[S.LN_VALVE]! < -0.3 || prior.mean[S.CHARGE]! < -0.1) x[S.DRY] = 0.5;
  x[S.LN_K] = prior.mean[S.LN_K]!;
  return x;
}

/** Hypotheses that move something other than the condenser's air side. */
function shifted(scene: Scene, found: Plain): Shifted[] {
  const { sound, lnClean, lnCleanSd, boxMeasured, reading, unit } = scene;
  const [dirt, dirtSd] = dirtBeside(reading);
  const own = (change: (p: S.Prior) => void, failing: 'high_side' | 'low_side' | 'none' = 'high_side'): S.Prior => {
    const p = copy(sound);
    p.mean[S.LN_K] = lnClean - dirt;
    p.sd[S.LN_K] = Math.hypot(lnCleanSd, dirtSd);
    if (!boxMeasured && failing === 'low_side') {
      p.mean[S.BOX] = unit.boxSetPointK + 2;
      p.sd[S.BOX] = 3.5;
    }
    change(p);
    return p;
  };
  const set =
    (i: number, [mean, sd]: readonly [number, number]) =>
    (p: S.Prior) => {
      p.mean[i] = mean;
      p.sd[i] = sd;
    };
  const by = scene.machine.capillary ? 'capillary' : 'valve';
  const list: Shifted[] = [
    { cause: 'non_condensables', share: 1, prior: own(set(S.GAS, SHIFTS.non_condensables)), way: 'gas' },
    { cause: 'overcharge', share: 1, prior: own(shift(S.CHARGE, SHIFTS.overcharge[by])), way: 'overcharge' },
    { cause: 'low_charge', share: 0.55, prior: own(shift(S.CHARGE, SHIFTS.low_charge[by]), 'low_side'), way: 'leak' },
    { cause: 'low_charge', share: 0.45, prior: own(shift(S.LN_VALVE, SHIFTS.restriction[by]), 'low_side'), way: 'restriction' },
    { cause: 'evaporator_coil', share: 0.5, prior: own(shift(S.LN_EVAP, SHIFTS.evaporator_coil.ice), 'low_side'), by: 'ice', way: 'ice' },
    {
      cause: 'evaporator_coil',
      share: 0.5,
      prior: own(shift(S.LN_EVAP, SHIFTS.evaporator_coil.dirt), 'low_side'),
      by: 'dirt',
      way: 'dirt',
    },
    { cause: 'evaporator_fan', share: 1, prior: own(shift(S.LN_EVAP, SHIFTS.evaporator_fan), 'low_side'), way: 'fan' },
    {
      cause: 'weak_compressor',
      share: 1,
      prior: own(shift(S.LN_PUMP, SHIFTS.weak_compressor[by]), 'low_side'),
      machine: { ...scene.machine, leaking: true },
      way: 'valves',
    },
  ];
  if (!boxMeasured) {
    // A fouled coil is met before a full box as well: where suction is read and the box is not, only this can say so.
    if (reading.suctionPaGauge !== undefined) list.push({ cause: 'coil_fouling', share: LOADED_TOO, prior: own(fouledAndLoaded(scene)) });
    list.push({ cause: 'high_load', share: 1, prior: own(set(S.BOX, [unit.boxSetPointK + BOX.loaded[0], BOX.loaded[1]]), 'none') });
  }
  if (reading.airInK === undefined && reading.roomAirK !== undefined) {
    const [over, sd] = ROOM_TO_COIL.recirculating;
    list.push({ cause: 'recirculation', share: 1, prior: own(set(S.AIR, [reading.roomAirK + over, sd])) });
  }
  list.push({ cause: 'not_steady', share: 1, prior: own(settling), seen: loosened(scene) });
  const out = standsOut(scene, found.measured);
  const { coilGrade } = reading;
  const odd = out < -UNLIKELY || (out > UNLIKELY && (coilGrade === 'bare' || coilGrade === 'filmed'));
  list.push(...suspects(scene, found.plain, odd).map((k) => faulty(scene, k, own)));
  // Air read too warm makes a coil give off more than it can clean, too cold less: one of the two is to be thought of.
  const airOff = out < 0 ? -OFF.airK[0] : OFF.airK[0];
  const { airInK, airAgainK } = reading;
  const byOther =
    airInK === undefined || airAgainK === undefined ? shift(S.AIR, [airOff, OFF.airK[1]]) : set(S.AIR, [airAgainK, airSdOf(reading)]);
  list.push({ cause: 'reading_fault', share: OFF.air / 2, prior: own(byOther), air: airOff });
  return list;
}

const fouledAndLoaded =
  ({ unit, lnClean, lnCleanSd }: Scene) =>
  (p: S.Prior): void => {
    const [[mean, sd] = [0, 1]] = LOSS.coil_fouling ?? [];
    p.mean[S.LN_K] = lnClean - mean;
    p.sd[S.LN_K] = Math.hypot(lnCleanSd, sd);
    p.mean[S.BOX] = unit.boxSetPointK + BOX.loaded[0];
    p.sd[S.BOX] = BOX.loaded[1];
  };

/** From where the machine stands when sound. */
const shift =
  (i: number, [by, sd]: readonly [number, number]) =>
  (p: S.Prior): void => {
    p.mean[i] = p.mean[i]! + by;
    p.sd[i] = sd;
  };

/** A machine still settling: head not up and suction not down yet, shell and lines still cold. */
function settling(p: S.Prior): void {
  const { condenser, evaporator, over, gain } = SETTLING;
  shift(S.LN_K, condenser)(p);
  shift(S.LN_EVAP, evaporator)(p);
  shift(S.OVER, over)(p);
  p.sd[S.GAIN] = gain;
}

/** Its balances hold only roughly. */
function loosened({ seen, machine }: Scene): Seen[] {
  const { balance, charge, capillary, valveK } = SETTLING;
  const expansion = machine.capillary ? capillary : valveK;
  const roughly: Partial<Record<Channel, number>> = { condenser: balance, evaporator: balance, charge, expansion };
  return seen.map((s) => ({ ...s, sd: roughly[s.channel] ?? s.sd }));
}

/** Which of the instruments may show anything: all where nothing sound fits, and what reads condensing where the coil is `odd`. */
function suspects({ instruments }: Scene, plain: Solution, odd: boolean): readonly number[] {
  return plain.misfit > MISFIT ? [...instruments.keys()] : odd ? [0] : [];
}
/** By how many spreads the coil seems to have lost, or below nought to give off more than it can clean. */
const standsOut = (scene: Scene, measured: LikelihoodOfK) => (scene.lnClean - measured.mean) / lossSpread(scene, measured.sd, 0);
/** Sum of squares from which nothing sound fits, and spreads from which what is lost is unlikely to be so. */
const MISFIT = 4;
const UNLIKELY = 1;

/** One instrument that shows anything. */
function faulty(scene: Scene, k: number, own: (change: (p: S.Prior) => void) => S.Prior): Shifted {
  const wide = (s: Seen) => (s.channel === 'headPa' || s.channel === 'suctionPa' ? Math.max(s.sd, OFF.pressure * s.value) : OFF.lineK);
  const first = scene.seen.length - scene.instruments.length;
  const seen = scene.seen.map((s, i) => (i === first + k ? { ...s, sd: wide(s) } : s));
  return {
    cause: 'reading_fault',
    share: k === 0 ? OFF.condensing : OFF.other,
    prior: own(() => undefined),
    seen,
  };
}

/**
 * Loss of conductance under another cause: the reading's own word on ln K with that cause at work, against the clean value,
 * held only loosely to the usual dirt. A coil can be fouled whatever else is wrong.
 */
function lossUnder(scene: Scene, solution: Solution, prior: S.Prior, cause: CauseId): { loss: number; lossSd: number } {
  const seen = likelihoodOfK(solution, prior, solution.lnEvidence);
  const seenSd = cause === 'not_steady' ? Math.hypot(seen.sd, SETTLING.coil) : seen.sd;
  const v = lossSpread(scene, seenSd, scene.lnClean - seen.mean) ** 2;
  const [mean, sd] = LOOSE_DIRT;
  const loss = (mean / sd ** 2 + (scene.lnClean - seen.mean) / v) / (1 / sd ** 2 + 1 / v);
  return { loss: loss + besidesDirt(scene, solution, cause), lossSd: Math.sqrt(1 / (1 / sd ** 2 + 1 / v)) };
}

/** What gas or liquid in the way takes of the conductance beside the dirt, as ln. */
function besidesDirt({ machine }: Scene, { x }: Solution, cause: CauseId): number {
  if (cause === 'non_condensables') return BLANKET * Math.max(0, x[S.GAS]!);
  if (cause === 'overcharge' || cause === 'low_charge')
    return Math.log((1 - machine.floodedRef) / (1 - Math.min(0.8, Math.max(0, x[S.FLOODED]!))));
  return 0;
}
