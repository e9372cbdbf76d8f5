import { fromDay, type LocalDate } from '../calendar';
import { AT, depositMean, depositVariance, shapeOf, STRIDE, type Bank } from './filter';
import type { Exposure, UnitEvent } from './history';
import type { Hyper } from './hyper';
import { mixtureMoments, mixtureQuantile, type Mixture } from './mixture';
import { weigh, type KitchenMessage } from './pooling';
import type { Evidence, Run } from './run';
import type { Season } from './season';

/** The filter as plain JSON. */
export type Snapshot = Omit<Run, 'bank'> & { bank: number[] };
export type Band = { mean: number; sd: number; low: number; high: number };

/** Belief about one unit's coil, as plain JSON. Bands run from the 10 to the 90 % point. */
export type FoulingPosterior = {
  modelVersion: string;
  exposure: Exposure;
  /** Last day with an event, or the start of the record; everything here holds at the end of that day. */
  asOf: LocalDate;
  /** Fall of ln K per day. */
  rate: Band;
  /** Part of a deposit that a cleaning of this unit takes off. */
  restore: { mean: number; sd: number };
  /** ln(K/K_clean): 0 clean, negative when conductance is lost. */
  lnK: Band;
  /** Part of that which cleaning no longer brings back, as ln K (negative). */
  residue: { mean: number; sd: number };
  /** Probability that growth levels off. */
  levelling: number;
  evidence: Evidence;
  lastCleanedOn: LocalDate | null;
  /** ln likelihood of all the evidence, for comparing models. */
  logEvidence: number;
  /** What this unit tells its kitchen, and what its neighbours told it through the kitchen. */
  message: KitchenMessage;
  fromKitchen: KitchenMessage;
  /** For updates and forecasts: the filter before the newest day, that day's events, and the filter after it. */
  state: {
    settled: Snapshot;
    today: UnitEvent[];
    live: number[];
    /** Days since the coil was last clean, on `asOf`. */
    age: number;
    weights: number[];
    growth: GrowthAhead;
  };
};

/** As much of a belief as looking ahead asks for: what is kept of one. Replaying its newest day needs the history, and has it. */
export type FoulingOutlook = Omit<FoulingPosterior, 'state'> & {
  state: Pick<FoulingPosterior['state'], 'live' | 'age' | 'weights' | 'growth'>;
};

/** What looking ahead needs of the hyperparameters. */
export type GrowthAhead = Pick<Hyper, 'diffusion' | 'levelling' | 'accelerating' | 'restore' | 'drift'> & { season: Season | null };

const growthAhead = (h: Hyper, { placement }: Exposure): GrowthAhead => ({
  diffusion: h.diffusion,
  levelling: h.levelling,
  accelerating: h.accelerating,
  restore: h.restore,
  drift: h.drift,
  season: h.season[placement] ?? null,
});

// Array.from on a typed array goes through its iterator; a plain loop is many times faster.
export function plain(a: Float64Array): number[] {
  const result = new Array<number>(a.length);
  for (let i = 0; i < a.length; i++) result[i] = a[i] as number;
  return result;
}

export function band(m: Mixture): Band {
  const start = mixtureMoments(m);
  return { ...start, low: mixtureQuantile(m, 0.1, start), high: mixtureQuantile(m, 0.9, start) };
}

function root(variance: number): number {
  return Math.sqrt(Math.max(variance, 1e-18));
}

/** The deposit that a bank believes in. */
export function depositsOf(bank: Bank, weights: ArrayLike<number>): Mixture {
  const n = weights.length;
  const deposits = { weights, means: new Float64Array(n), sds: new Float64Array(n) };
  for (let i = 0, o = 0; i < n; i++, o += STRIDE) {
    deposits.means[i] = depositMean(bank, o);
    deposits.sds[i] = root(depositVariance(bank, o));
  }
  return deposits;
}

/** A band of the deposit, as one of ln K. */
export const asLnK = ({ mean, sd, low, high }: Band): Band => ({ mean: -mean, sd, low: -high, high: -low });

/** A filter run through its evidence, before its kitchen has been heard. */
export type Filtered = { exposure: Exposure; settled: Snapshot; today: UnitEvent[]; run: Run };

/** The belief, told in means and bands. */
export function summarise({ exposure, settled, today, run }: Filtered, hyper: Hyper, fromKitchen: KitchenMessage): FoulingPosterior {
  const { bank } = run;
  const { weights, message, logEvidence } = weigh(bank, hyper, exposure.placement, fromKitchen);
  const n = weights.length;
  const rates = { weights, means: new Float64Array(n), sds: new Float64Array(n) };
  const lefts = { weights, means: new Float64Array(n), sds: new Float64Array(n) };
  const stays = { weights, means: new Float64Array(n), sds: new Float64Array(n) };
  let levelling = 0;
  for (let i = 0, o = 0; i < n; i++, o += STRIDE) {
    rates.means[i] = bank[o + AT.RATE] as number;
    rates.sds[i] = root(bank[o + AT.XX] as number);
    lefts.means[i] = bank[o + AT.Q] as number;
    lefts.sds[i] = root(bank[o + AT.QQ] as number);
    stays.means[i] = -(bank[o + AT.R] as number);
    stays.sds[i] = root(bank[o + AT.RR] as number);
    if (shapeOf(bank[o] as number) === 1) levelling += weights[i] as number;
  }
  const lost = mixtureMoments(lefts);
  return {
    modelVersion: hyper.modelVersion,
    exposure,
    asOf: fromDay(run.day),
    rate: band(rates),
    restore: { mean: 1 - lost.mean, sd: lost.sd },
    lnK: asLnK(band(depositsOf(bank, weights))),
    residue: mixtureMoments(stays),
    levelling,
    evidence: run.evidence,
    lastCleanedOn: run.lastCleanedDay === null ? null : fromDay(run.lastCleanedDay),
    logEvidence,
    message,
    fromKitchen,
    state: {
      settled,
      today,
      live: plain(bank),
      age: run.day - run.bornDay,
      weights: plain(weights),
      growth: growthAhead(hyper, exposure),
    },
  };
}
