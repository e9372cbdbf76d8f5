import { profileOf } from './machine/profiles';
import { Z80 } from './bands';
import { OWN_PARTS, type CleanBaseline, type CondenserUnit, type DesignRise, type Estimate, type Figure, type OwnMachine } from './types';

/** What is believed of a unit's clean rise before any reading after a cleaning: usual for its kind. */
export function cleanPrior(unit: CondenserUnit): CleanBaseline {
  const profile = profileOf(unit.kind, unit.application);
  return { cleanRiseK: profile.cleanRiseK, sdK: profile.cleanRiseSdK, readings: 0 };
}

/** A cleaned coil is not a new one: within 1–7 % of clean after washing (Pak, Baek and Groll 2003). */
const CLEANED_SPREAD = 0.04;
/** The same van's gauge errs the same way each time, so readings never average their way below this. */
const FLOOR = 0.025;
/** Beyond this many sigma from belief a reading counts for less: the cleaning may not have worked. */
const TRUST = 2;

/** What a reading after a cleaning must tell; readings kept from before `repeatSd` was noted are taken whole. */
export type AfterCleaning = Estimate | { status: 'ok'; designRiseK: Figure & Partial<DesignRise> };

/**
 * Belief after a reading taken on the cleaned coil: normal update of the logarithm of the rise at design load.
 * A reading that could not say, or one far off, changes little or nothing.
 */
export function updateBaseline(baseline: CleanBaseline, afterCleaning: AfterCleaning): CleanBaseline {
  if (afterCleaning.status !== 'ok') return baseline;
  const { value, lo, hi, repeatSd, means, own: seen }: Figure & Partial<DesignRise> = afterCleaning.designRiseK;
  if (!(value > 0 && lo > 0 && hi > lo)) return baseline;
  const sameWay = baseline.readings === 0 || baseline.means === means;
  const whole = Math.log(hi / lo) / (2 * Z80);
  const own = Math.hypot(sameWay ? (repeatSd ?? whole) : whole, CLEANED_SPREAD);
  const prior = { mean: Math.log(baseline.cleanRiseK), sd: baseline.sdK / baseline.cleanRiseK };
  const off = Math.abs(Math.log(value) - prior.mean) / Math.hypot(own, prior.sd);
  const weight = (off > TRUST ? (TRUST / off) ** 4 : 1) / (own * own);
  const before = 1 / (prior.sd * prior.sd);
  const mean = (prior.mean * before + Math.log(value) * weight) / (before + weight);
  const sd = Math.max(Math.sqrt(1 / (before + weight)), Math.min(FLOOR, prior.sd));
  const cleanRiseK = Math.exp(mean);
  const readings = baseline.readings + 1;
  const machine = sameWay && seen && off < TRUST ? ownAfter(baseline.own ?? {}, seen, baseline.readings) : baseline.own;
  return {
    cleanRiseK,
    sdK: cleanRiseK * sd,
    readings,
    means: baseline.readings === 0 ? means : baseline.means,
    ...(machine ? { own: machine } : {}),
  };
}

/** The mean of what readings told. */
function ownAfter(own: OwnMachine, seen: OwnMachine, readings: number): OwnMachine {
  const mean = { ...own };
  for (const part of OWN_PARTS) {
    const [before, now] = [own[part], seen[part]];
    if (now !== undefined) mean[part] = before === undefined ? now : before + (now - before) / (readings + 1);
  }
  return mean;
}

/** Whether errors that stay with the unit cancel between this baseline and a reading taken by these means. */
export function cancels(baseline: CleanBaseline, means: string): boolean {
  return baseline.readings > 0 && baseline.means === means;
}
