import { keysOf } from '../typed/closed-set';
import { cancels, cleanPrior } from './baseline';
import { figure, normalCdf, Z60, Z80 } from './bands';
import { underHeadControl } from './causes/head-control';
import { causesOf } from './causes/ranked';
import { isKnownRefrigerant } from './fluid/limits';
import { infer, lossSpread, ownSeen, type Belief } from './inference/infer';
import { LOOKS } from './inference/looks';
import { quantile, type Part } from './inference/mixture';
import { nextLooks } from './inference/next-look';
import { sceneOf, type Scene } from './inference/scene';
import { outlook, type Outlook } from './outlook/consequences';
import { withUsualDay } from './outlook/energy';
import { sifted } from './readings/doubts';
import { measuredOf, meansOf, type MeasuredSides } from './readings/measured';
import { unreadable } from './readings/readable';
import { SHORTEST_STEADY_MIN } from './readings/steadiness';
import { judge } from './verdict';
import { part, widthOf, type Banded, type Width } from './widths';
import { assumptionsOf } from './words/assumptions';
import { lookWords } from './words/looks';
import { candidates, cannotSaySentence, sentenceFor } from './words/sentence';
import type {
  CannotSayReason,
  CleanBaseline,
  CondenserUnit,
  Conditions,
  Doubt,
  Estimate,
  EstimateCannotSay,
  EstimateOk,
  Figure,
  NowAndClean,
  PastLoss,
  Reading,
} from './types';

export type EstimateOptions = { history?: readonly PastLoss[] };

/**
 * What one reading says of the machine: how much of the condenser is lost, what that costs under the stated conditions,
 * how sure that is, which cause is how likely, and what to look at next. Never throws for a bad reading: `cannot_say`
 * with the reason.
 *
 * @param unit what is known of the machine
 * @param entered reading as typed, SI, gauge pressures above the local atmosphere
 * @param baseline belief of its clean rise, `cleanPrior(unit)` before any reading after a cleaning
 * @param given hot day, box and price for the consequences
 */
export function estimate(
  unit: CondenserUnit,
  entered: Reading,
  baseline: CleanBaseline,
  given: Conditions,
  options: EstimateOptions = {},
): Estimate {
  const conditions = withUsualDay(unit, given);
  if (!isKnownRefrigerant(unit.refrigerant)) return cannotSay('unknown_refrigerant', []);
  const { sound: reading, doubts } = sifted(unit, entered);
  const no = (reason: CannotSayReason) => cannotSay(reason, doubts);
  const lacking = unreadable(unit, reading) && (unreadable(unit, entered) ?? 'impossible_reading');
  if (lacking) return no(lacking);
  const learnt = cancels(baseline, meansOf(reading));
  const scene = sceneOf(unit, reading, baseline, { history: options.history, learnt });
  if (!scene) return no('out_of_range');
  const measured = measuredOf(scene);
  const unsound = measured && unsoundness(measured, doubts);
  if (!measured || unsound) return withCauses(no(unsound ?? 'out_of_range'), scene, measured);
  const belief = beliefOf(scene, doubts);
  if (typeof belief === 'string') return { ...no(belief), ...measured };
  return estimateOf(belief, { unit, reading, baseline, conditions, measured, doubts });
}

const tooEarly = ({ steadyMinutes }: Reading): boolean => steadyMinutes !== undefined && steadyMinutes < SHORTEST_STEADY_MIN;

/** What is believed of the machine, or why nothing can be. */
function beliefOf(scene: Scene, doubts: readonly Doubt[]): Belief | CannotSayReason {
  if (tooEarly(scene.reading)) return 'not_steady';
  const belief = infer(scene, doubts.length);
  if (!belief) return 'not_converged';
  const air = scene.sound.mean[4] ?? NaN;
  const held = underHeadControl(scene.unit, air, scene.baseline.cleanRiseK) || belief.probability.head_pressure_control > 0.5;
  return held ? 'head_control' : belief;
}

function cannotSay(reason: CannotSayReason, doubts: Doubt[]): EstimateCannotSay {
  return { status: 'cannot_say', reason, causes: [], verdict: 'cannot_say', sentence: cannotSaySentence(reason), doubts };
}

/** No figure, and still what it may be. */
function withCauses(answer: EstimateCannotSay, scene: Scene, measured: MeasuredSides | null): EstimateCannotSay {
  if (answer.reason === 'impossible_reading') return answer;
  if (tooEarly(scene.reading)) return cannotSay('not_steady', answer.doubts);
  const belief = infer(scene, answer.doubts.length);
  if (!belief) return answer;
  // However sure it is, nobody has seen it yet: what was not looked at stays open.
  const unseen = keysOf(LOOKS)
    .filter((look) => scene.reading[look] === undefined)
    .map((look) => ({ look, bits: 0 }));
  const causes = causesOf(belief, measured, scene.unit, [...nextLooks(belief), ...unseen]);
  return { ...answer, ...measured, causes, sentence: `${answer.sentence} ${candidates(causes)}.` };
}

/** Less than this over the air there is no telling one coil from another. */
const SMALLEST_RISE_K = 2;

function unsoundness(measured: MeasuredSides, doubts: readonly Doubt[]): CannotSayReason | null {
  const { riseK, condensingK } = measured;
  if (riseK.value <= 0) return doubts.length > 0 ? 'impossible_reading' : 'rise_too_small';
  if (!Number.isFinite(condensingK.value)) return 'out_of_range';
  return riseK.value < SMALLEST_RISE_K || riseK.value - riseK.lo > 0.8 * riseK.value ? 'rise_too_small' : null;
}

type Given = {
  unit: CondenserUnit;
  reading: Reading;
  baseline: CleanBaseline;
  conditions: Conditions;
  measured: MeasuredSides;
  doubts: Doubt[];
};

function estimateOf(belief: Belief, g: Given): EstimateOk {
  const { unit, reading, baseline, conditions, measured, doubts } = g;
  const conductanceLost = lossFigure(lossParts(belief), 'conductance', belief);
  const ahead = outlook({ belief, unit, conditions });
  const looks = nextLooks(belief);
  const judged = judge(belief, reading, looks);
  const next = judged.look ? lookWords(judged.look, unit) : '';
  const { cleanRiseK, designRiseK } = rises(belief, measured.riseK.value, reading);
  const causes = causesOf(belief, measured, unit, looks);
  const figures = foretold(ahead, belief, conditions);
  return {
    status: 'ok',
    ...measured,
    cleanRiseK,
    designRiseK,
    conductanceLost,
    ...figures,
    causes,
    lookNext: looks.slice(0, 3).map((l) => ({ look: l.look, instruction: lookWords(l.look, unit), bits: l.bits })),
    verdict: judged.verdict,
    sentence: sentenceFor({ riseK: measured.riseK, cleanRiseK, conductanceLost }, { ...judged, next }, causes, reading),
    doubts,
    assumptions: assumptionsOf(unit, reading, conditions, belief.scene.machine.profile, baseline),
  };
}

/** Loss, −ln(K/K_clean), as a mixture: what the reading shows of the condenser, and what it is if another cause is at work. */
function lossParts(belief: Belief): Part[] {
  const { scene, measured, plain, components } = belief;
  const loss = scene.lnClean - measured.lnK;
  const sd = lossSpread(scene, measured.sd, loss);
  const others = components.filter((c) => c.solution !== plain);
  const rest = others.reduce((a, c) => a + c.weight, 0);
  const parts: Part[] = others.map((c) => ({ weight: c.weight, value: c.loss, down: c.lossSd, up: c.lossSd }));
  parts.push({ weight: 1 - rest, value: loss, down: sd, up: sd });
  return parts;
}

/**
 * Ends of the 80 % band of what cannot be less than nothing, after Feldman and Cousins (1998, Phys. Rev. D 57:3873): a limit
 * from above near nothing, going over into two ends of a tenth each as the loss stands out, so that the band holds what it
 * promises at every depth. Their construction at 80 %, straight between its ends.
 */
function ends(parts: readonly Part[], banded: Banded, belief: Belief): [number, number, number] {
  const mid = quantile(parts, 0.5);
  const out = Math.max(0, mid / Math.max(1e-9, (mid - quantile(parts, 0.2)) / Z60));
  const share = part((out - Z60) / (2 * Z80 - Z60));
  const width = widthOf(banded, belief, banded === 'conductance' ? share : undefined);
  const low = mid + width.low * (quantile(parts, normalCdf(-(Z60 + (Z80 - Z60) * share))) - mid);
  const above = width.high * (quantile(parts, 0.9) - mid);
  // Below nothing: the limit shrinks slower than the reading falls.
  const high = mid < 0 ? Math.max(mid + above, above * Math.exp((0.9 * mid * Z80) / above)) : mid + above;
  return [mid, low, high];
}

/** Nothing is lost less than nothing: where the band reaches below, its upper end stands as the limit. */
function lossFigure(parts: readonly Part[], banded: Banded, belief: Belief): Figure {
  const [value, lo, hi] = ends(parts, banded, belief).map((x) => Math.max(0, -Math.expm1(-x))) as [number, number, number];
  return figure(value, lo, Math.max(hi, SMALLEST_LIMIT));
}
const SMALLEST_LIMIT = 0.01;

function rises(belief: Belief, riseK: number, reading: Reading): Pick<EstimateOk, 'cleanRiseK' | 'designRiseK'> {
  const { scene, measured, plain } = belief;
  const relative = belief.measured.lnK - scene.lnClean;
  const dutySd = Math.hypot(0.03, reading.suctionPaGauge === undefined ? 0.08 : 0.04);
  const sd = Math.hypot(scene.lnCleanSd, dutySd);
  const clean = plain.outcome.riseK > 0 ? plain.outcome.riseK * Math.exp(relative) : riseK * Math.exp(relative);
  const design = scene.machine.profile.cleanRiseK * Math.exp(-measured.lnK);
  // Against what is usual for the kind, so that later readings may be put together with it.
  const usual = reading.phase === 'after' ? sceneOf(scene.unit, reading, cleanPrior(scene.unit), { learnt: false }) : null;
  const own = usual && ownSeen(usual);
  const band = (value: number, s: number) => figure(value, value * Math.exp(-Z80 * s), value * Math.exp(Z80 * s));
  return {
    cleanRiseK: band(clean, sd),
    designRiseK: { ...band(design, measured.sd), repeatSd: measured.repeatSd, means: meansOf(reading), ...(own ? { own } : {}) },
  };
}

type Foretold = Pick<
  EstimateOk,
  | 'coolingLostHotDay'
  | 'extraEnergyKwhPerDay'
  | 'extraCostPerDay'
  | 'cannotKeepUp'
  | 'dischargeHotDayK'
  | 'headHotDayPaGauge'
  | 'cutoutAirK'
>;

function foretold(ahead: Outlook | null, belief: Belief, conditions: Conditions): Foretold {
  if (!ahead) {
    const none = { coolingLostHotDay: null, extraEnergyKwhPerDay: null, extraCostPerDay: null, cannotKeepUp: false };
    return { ...none, dischargeHotDayK: null, headHotDayPaGauge: null, cutoutAirK: null };
  }
  const even = (parts: readonly Part[], shift = 0, { low, high }: Width = { low: 1, high: 1 }) => {
    const mid = quantile(parts, 0.5);
    const [lo, hi] = [mid + low * (quantile(parts, 0.1) - mid), mid + high * (quantile(parts, 0.9) - mid)];
    return figure(mid - shift, lo - shift, hi - shift);
  };
  const pair = (now: readonly Part[], clean: readonly Part[], shift = 0): NowAndClean => ({
    now: even(now, shift),
    clean: even(clean, shift),
  });
  const [kwh, kwhLo, kwhHi] = ends(ahead.extraKwh, 'energy', belief).map((x) => Math.max(0, x)) as [number, number, number];
  const extra = figure(kwh, kwhLo, Math.max(kwhHi, 0.001));
  const price = conditions.energyPricePerKwh;
  return {
    coolingLostHotDay: lossFigure(ahead.coolingLost, 'cooling', belief),
    extraEnergyKwhPerDay: extra,
    extraCostPerDay: { ...figure(extra.value * price, extra.lo * price, extra.hi * price), currency: conditions.currency },
    cannotKeepUp: ahead.cannotKeepUp,
    dischargeHotDayK: { now: even(ahead.dischargeNow, 0, widthOf('discharge', belief)), clean: even(ahead.dischargeClean) },
    headHotDayPaGauge: pair(ahead.headNow, ahead.headClean, belief.scene.atmospherePa),
    cutoutAirK: ahead.cutNow && ahead.cutClean && pair(ahead.cutNow, ahead.cutClean),
  };
}
