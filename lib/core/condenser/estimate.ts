import { cancels } from './baseline';
import { dischargeTemperature } from './machine/cycle';
import { figure, Z80 } from './bands';
import { weigh } from './causes/weigh';
import type { Scene } from './causes/evidence';
import { underHeadControl } from './causes/head-control';
import { neverBelowZero, outlook } from './outlook/consequences';
import { sifted } from './readings/doubts';
import { unreadable } from './readings/readable';
import { evaporatingFor } from './machine/evaporator';
import { assumptionsOf } from './words/assumptions';
import { isKnownRefrigerant } from './fluid/limits';
import { modelOf, type ModelOptions, type UnitModel } from './machine/model';
import { meansOf, resolve, type Resolved } from './readings/resolve';
import { cannotSaySentence, sentenceFor } from './words/sentence';
import { expFigure, seeWithSpread, toFigure, type SeenWithSpread, type Spread, type Spreads } from './readings/spread';
import { scatterSd, SHORTEST_STEADY_MIN } from './readings/steadiness';
import { tuned } from './machine/tune';
import { judge } from './verdict';
import type {
  CannotSayReason,
  CleanBaseline,
  CondenserUnit,
  Conditions,
  DesignRise,
  Doubt,
  Estimate,
  EstimateCannotSay,
  EstimateOk,
  Figure,
  PastLoss,
  Reading,
} from './types';

export type EstimateOptions = ModelOptions & { history?: readonly PastLoss[] };

/**
 * What one reading says of the condenser: how much of it is lost, what that costs under the stated conditions, how
 * sure that is, and whether it is the coil at all. Never throws for a bad reading: `cannot_say` with the reason.
 *
 * @param unit what is known of the machine
 * @param entered reading as typed, SI, gauge pressures above the local atmosphere
 * @param baseline belief of its clean rise, `cleanPrior(unit)` before any reading after a cleaning
 * @param conditions hot day, box and price for the consequences
 */
export function estimate(
  unit: CondenserUnit,
  entered: Reading,
  baseline: CleanBaseline,
  conditions: Conditions,
  options: EstimateOptions = {},
): Estimate {
  if (!isKnownRefrigerant(unit.refrigerant)) return cannotSay('unknown_refrigerant', []);
  const { sound: reading, doubts } = sifted(unit, entered);
  const no = (reason: CannotSayReason) => cannotSay(reason, doubts);
  const lacking = unreadable(unit, entered) ?? (unreadable(unit, reading) && 'impossible_reading');
  if (lacking) return no(lacking);
  const model = modelOf(unit, options);
  const resolved = model && resolve(unit, model, reading);
  if (!model || !resolved) return no('out_of_range');
  const s = seeWithSpread(model, resolved, scatterSd(reading));
  const unsound = unsoundness(s, doubts);
  if (unsound) return no(unsound);
  const known = {
    condensingK: toFigure(s.condensingK),
    condensingDewK: toFigure(s.condensingDewK),
    riseK: toFigure(s.riseK),
  };
  const late = reading.steadyMinutes !== undefined && reading.steadyMinutes < SHORTEST_STEADY_MIN;
  if (late) return { ...no('not_steady'), ...known };
  if (underHeadControl(unit, resolved.airK.value, baseline.cleanRiseK)) return { ...no('head_control'), ...known };
  const whole = full({ unit, reading, baseline, conditions, options, model, resolved, s, doubts, known });
  return whole ?? { ...no('not_converged'), ...known };
}

function cannotSay(reason: CannotSayReason, doubts: Doubt[]): EstimateCannotSay {
  return {
    status: 'cannot_say',
    reason,
    causes: [],
    verdict: 'cannot_say',
    sentence: cannotSaySentence(reason),
    doubts,
  };
}

/** Less than this over the air there is no telling one coil from another. */
const SMALLEST_RISE_K = 2;

function unsoundness(s: SeenWithSpread, doubts: readonly Doubt[]): CannotSayReason | null {
  const { seen } = s;
  if (seen.riseK <= 0) return doubts.length > 0 ? 'impossible_reading' : 'rise_too_small';
  if (!Number.isFinite(seen.condensingK + seen.heatRejectedW)) return 'out_of_range';
  if (seen.riseK < SMALLEST_RISE_K || s.riseK.down > 0.8 * seen.riseK) return 'rise_too_small';
  if (!(seen.heatRejectedW > 0)) return 'impossible_reading';
  const spreads = [s.lnConductance.whole, s.lnDuty.whole, s.riseK].flatMap((x) => [x.value, x.down, x.up]);
  return spreads.every(Number.isFinite) ? null : 'out_of_range';
}

type Known = { condensingK: Figure; condensingDewK: Figure; riseK: Figure };
type Given = {
  unit: CondenserUnit;
  reading: Reading;
  baseline: CleanBaseline;
  conditions: Conditions;
  options: EstimateOptions;
  model: UnitModel;
  resolved: Resolved;
  s: SeenWithSpread;
  doubts: Doubt[];
  known: Known;
};

function full(g: Given): EstimateOk | null {
  const { unit, reading, baseline, conditions, model, s } = g;
  const lnDesignDuty = Math.log(model.designDutyW);
  const cleanSd = baseline.sdK / baseline.cleanRiseK;
  const clean: Spread = { value: lnDesignDuty - Math.log(baseline.cleanRiseK), down: Z80 * cleanSd, up: Z80 * cleanSd };
  const means = meansOf(g.resolved);
  const learnt = cancels(baseline, means);
  const which = learnt ? 'repeat' : 'whole';
  const now = s.lnConductance[which];
  const duty = s.lnDuty[which];
  // ln(K_clean/K): up when the coil is worse.
  const worse: Spread = {
    value: clean.value - now.value,
    down: Math.hypot(clean.down, now.up),
    up: Math.hypot(clean.up, now.down),
  };
  const lossAt = (x: number) => 1 - Math.exp(-x);
  const conductanceLost = neverBelowZero(figure(lossAt(worse.value), lossAt(worse.value - worse.down), lossAt(worse.value + worse.up)));
  const ahead = tuned(model, g.resolved, s.seen, unit.boxSetPointK);
  const look = outlook(ahead, { now, nowByRise: s.lnConductanceByRise, clean }, conditions, {
    learnt,
    sizeKnown: unit.nominalCoolingW !== undefined || unit.compressorMap !== undefined,
    dischargeOffsetK: dischargeOffset(g),
    cutoutPaGauge: unit.cutoutPaGauge,
  });
  const cleanRise: Spread = {
    value: duty.value - clean.value,
    down: Math.hypot(duty.down, clean.up),
    up: Math.hypot(duty.up, clean.down),
  };
  const sdWorse = { value: worse.value, sd: worse.down / Z80 };
  const scene: Scene = {
    unit,
    reading,
    model,
    seen: s.seen,
    z: worse.value / sdWorse.sd,
    lost: conductanceLost.value,
    lostSd: (conductanceLost.value - lossAt(worse.value - worse.down)) / Z80,
    cleanRiseK: Math.exp(cleanRise.value),
    usualEvaporatingK: usualEvaporating(g),
    history: g.options.history ?? [],
    doubts: g.doubts,
  };
  const weighed = weigh(scene);
  const judged = judge(sdWorse, weighed, reading);
  const told = { riseK: g.known.riseK, cleanRiseK: expFigure(cleanRise), conductanceLost, verdict: judged.verdict };
  const next = weighed.causes.find((c) => c.id === (judged.also ?? judged.leading))?.next ?? '';
  const extra = look.consequences?.extraEnergyKwhPerDay ?? null;
  return {
    status: 'ok',
    ...g.known,
    cleanRiseK: told.cleanRiseK,
    designRiseK: designRise(lnDesignDuty, s.lnConductance, means),
    conductanceLost,
    coolingLostHotDay: look.consequences?.coolingLostHotDay ?? null,
    extraEnergyKwhPerDay: extra,
    extraCostPerDay: extra && priced(extra, conditions),
    cannotKeepUp: look.consequences?.cannotKeepUp ?? false,
    dischargeHotDayK: look.consequences?.dischargeHotDayK ?? null,
    headHotDayPaGauge: look.consequences?.headHotDayPaGauge ?? null,
    cutoutAirK: look.cutoutAirK,
    causes: weighed.causes,
    verdict: judged.verdict,
    sentence: sentenceFor(told, { ...judged, next }, reading),
    doubts: g.doubts,
    assumptions: assumptionsOf(unit, reading, conditions, model, baseline),
  };
}

function designRise(lnDesignDuty: number, { whole, repeat }: Spreads, means: string): DesignRise {
  const band = expFigure({ value: lnDesignDuty - whole.value, down: whole.up, up: whole.down });
  return { ...band, repeatSd: (repeat.up + repeat.down) / (2 * Z80), means };
}

function priced(extra: Figure, { energyPricePerKwh: price, currency }: Conditions) {
  return { ...figure(extra.value * price, extra.lo * price, extra.hi * price), currency };
}

/** Where the evaporator would settle for this box by the usual constants, K; that is what was taken without a suction gauge. */
function usualEvaporating({ model, resolved, s }: Given): number {
  if (!resolved.suctionPa) return s.seen.evaporatingDewK;
  return evaporatingFor(model, resolved.boxK.value, s.seen.condensingDewK, s.seen.evaporatingDewK, 1e-2);
}

/** Measured minus computed discharge temperature, where a clamp sat on the discharge line. */
function dischargeOffset({ reading, model, s }: Given): number | undefined {
  if (reading.dischargeLineK === undefined) return undefined;
  const offset = reading.dischargeLineK - dischargeTemperature(model.fluid, s.seen.cycle);
  return Math.abs(offset) < 25 ? offset : undefined;
}
