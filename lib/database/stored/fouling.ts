import { z } from 'zod';
import type { FleetBelief, OwnLimits } from '../../core/evidence';
import { DEFAULT_HYPER, type FoulingOutlook, type Hyper } from '../../core/fouling';
import { band, day, limit, meanSd, numbers, packedNumbers, packNumbers, placement } from './parts';
import { stored } from './stored';

const season = z.looseObject({ share: z.number(), kappa: z.number(), peak: z.number() });
const growth = {
  diffusion: z.number(),
  levelling: z.looseObject({ probability: z.number(), ceiling: z.number() }),
  accelerating: z.looseObject({ probability: z.number(), power: z.number() }),
  restore: z.looseObject({ mean: z.number(), unitSd: z.number(), cleaningSd: z.number(), baked: z.number() }),
  drift: z.number(),
};

const hyper: z.ZodType<Hyper> = z.looseObject({
  ...growth,
  modelVersion: z.string(),
  lnRate: z.record(placement, z.number()),
  unitSd: z.number(),
  kitchenSd: z.number(),
  changePerYear: z.number(),
  season: z.partialRecord(placement, season),
  misread: z.number(),
  eyes: z.record(z.string(), numbers),
  grades: z.looseObject({ thresholds: z.tuple([z.number(), z.number(), z.number(), z.number()]), sd: z.number() }),
  unknownRunDays: z.number(),
  clipSds: z.number(),
});

const evidence = z.looseObject({ cleanings: z.number(), grades: z.number(), readings: z.number(), setAside: z.number() });

const posterior: z.ZodType<FoulingOutlook> = z.looseObject({
  modelVersion: z.string(),
  exposure: z.looseObject({ placement, kitchenId: z.string() }),
  asOf: day,
  rate: band,
  restore: meanSd,
  lnK: band,
  residue: meanSd,
  levelling: z.number(),
  evidence,
  lastCleanedOn: day.nullable(),
  logEvidence: z.number(),
  message: numbers,
  fromKitchen: numbers,
  state: z.looseObject({
    live: packedNumbers,
    age: z.number(),
    weights: packedNumbers,
    growth: z.looseObject({ ...growth, season: season.nullable() }),
  }),
});

const isRecord = (x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null;
const within = (json: unknown, key: string, change: (x: unknown) => unknown): unknown =>
  isRecord(json) ? { ...json, [key]: change(json[key]) } : json;
/** Before version 3 a coil of unknown age was taken to have run for 60 days. */
const ranSixty = (fouling: unknown) => (isRecord(fouling) ? { unknownRunDays: 60, ...fouling } : fouling);
/** Before version 4 growth levelled off in so many days, alike for all coils. How many do so stays as it was learned. */
const hadDays = (growing: unknown) => {
  if (!isRecord(growing) || !isRecord(growing.asymptotic)) return growing;
  const { asymptotic, ...rest } = growing;
  return { levelling: { probability: asymptotic.probability, ceiling: DEFAULT_HYPER.levelling.ceiling }, ...rest };
};
const beliefHadDays = (belief: unknown) => {
  if (!isRecord(belief)) return belief;
  const { asymptotic, ...rest } = belief;
  return within({ levelling: asymptotic, ...rest }, 'state', (state) => within(state, 'growth', hadDays));
};
/** Before version 5 a person's eye told of each grade how much of it to disregard, not how often it is written amiss: learned anew. */
const eyesAnew = (fouling: unknown) => within(fouling, 'eyes', () => ({}));
/** Before version 2 all that a cleaning left was taken to stay. */
const allStays = (growing: unknown) => within(growing, 'restore', (r) => (isRecord(r) ? { baked: 1, ...r } : r));

/** Before version 5 the newest day stood beside it, with the filter before that day. */
const noNewestDay = (belief: unknown) =>
  within(belief, 'state', (state) => {
    if (!isRecord(state)) return state;
    const { settled: _, today: __, ...rest } = state;
    return rest;
  });

/**
 * Before version 3 the filter's numbers stood as digits; those are read as they are. The newest day is not kept: it was half of all that
 * a refit writes, and who replays it has the history.
 */
const packed = ({ state: { live, age, weights, growth }, ...belief }: FoulingOutlook): object => ({
  ...belief,
  state: { live: packNumbers(live), age, weights: packNumbers(weights), growth },
});

/** Belief about one unit's coil. */
export const STORED_POSTERIOR = stored<FoulingOutlook>(
  'belief about a coil',
  5,
  posterior,
  { 1: (json) => within(json, 'state', (state) => within(state, 'growth', allStays)), 3: beliefHadDays, 4: noNewestDay },
  packed,
);

/** What the fleet as a whole has taught. */
export const STORED_FLEET_BELIEF = stored<FleetBelief>(
  'belief about the fleet',
  5,
  z.looseObject({
    fouling: hyper,
    failures: z.record(z.string(), z.looseObject({ shape: z.number(), days: z.number(), season: season.optional() })),
  }),
  {
    1: (json) => within(json, 'fouling', allStays),
    2: (json) => within(json, 'fouling', ranSixty),
    3: (json) => within(json, 'fouling', hadDays),
    4: (json) => within(json, 'fouling', eyesAnew),
  },
);

/** A unit's own limits, from its machine and its hot day. */
export const STORED_OWN_LIMITS = stored<OwnLimits>(
  'limits of a unit',
  1,
  z.looseObject({ limits: z.array(limit), failureLimit: limit.nullable(), passedClean: z.array(z.string()), kwhPerDay: numbers }),
);
