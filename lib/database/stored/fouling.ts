import { z } from 'zod';
import type { FleetBelief, OwnLimits } from '../../core/evidence';
import { isGradeOf, type CoilGrade, type FanGrade } from '../../core/findings/grades';
import type { FoulingPosterior, Hyper, UnitEvent } from '../../core/fouling';
import { TRIP_CAUSES } from '../../core/findings/trip-causes';
import { DEFAULT_HYPER, SAID_CHANGES } from '../../core/fouling';
import { band, day, limit, meanSd, numbers, packedNumbers, packNumbers, placement } from './parts';
import { stored } from './stored';

const coilGrade = z.custom<CoilGrade>((x) => typeof x === 'string' && isGradeOf('coil', x), 'not a grade of the coil');
const fanGrade = z.custom<FanGrade>((x) => typeof x === 'string' && isGradeOf('condenser_fan', x), 'not a grade of the fan');
const phase = z.enum(['before', 'after']);

const event: z.ZodType<UnitEvent> = z.discriminatedUnion('kind', [
  z.looseObject({ kind: z.literal('cleaning'), on: day, deep: z.boolean().optional() }),
  z.looseObject({ kind: z.literal('coil'), on: day, grade: coilGrade, phase, by: z.string().optional() }),
  z.looseObject({
    kind: z.literal('reading'),
    on: day,
    lnK: z.number(),
    sd: z.number(),
    phase,
    setAside: z.string().optional(),
    teaches: z.boolean().optional(),
  }),
  z.looseObject({ kind: z.literal('fan'), on: day, grade: fanGrade }),
  z.looseObject({ kind: z.literal('trip'), on: day, cause: z.enum(TRIP_CAUSES).optional() }),
  z.looseObject({ kind: z.literal('change'), on: day, said: z.enum(SAID_CHANGES) }),
]);

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

const posterior: z.ZodType<FoulingPosterior> = z.looseObject({
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
    settled: z.looseObject({
      bank: packedNumbers,
      day: z.number(),
      fanDown: z.boolean(),
      evidence,
      lastCleanedDay: z.number().nullable(),
      bornDay: z.number(),
    }),
    today: z.array(event),
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

/** Before version 3 the filter's numbers stood as digits; those are read as they are. */
const packed = ({ state, ...belief }: FoulingPosterior): object => ({
  ...belief,
  state: {
    ...state,
    settled: { ...state.settled, bank: packNumbers(state.settled.bank) },
    live: packNumbers(state.live),
    weights: packNumbers(state.weights),
  },
});

/** Belief about one unit's coil. */
export const STORED_POSTERIOR = stored<FoulingPosterior>(
  'belief about a coil',
  4,
  posterior,
  { 1: (json) => within(json, 'state', (state) => within(state, 'growth', allStays)), 3: beliefHadDays },
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
