import { PLACEMENTS, type Placement } from '../equipment/build';
import type { Season } from './season';
import { normalPdf } from './special';

export const MODEL_VERSION = 'fouling-11';

/**
 * What is believed of the whole fleet. Deposit y = −ln(K/K_clean): 0 clean, 0.19 and 0.55 at the two fouled states of
 * the Oak Ridge field test (28 % and 58 % airflow loss: conductance 0.83 and 0.58).
 */
export type Hyper = {
  modelVersion: string;
  /** Mean of ln(rate), rate in ln K per day, by what the condenser breathes. */
  lnRate: Record<Placement, number>;
  /** Standard deviation of ln(rate) between units of one kitchen, and between kitchens. */
  unitSd: number;
  kitchenSd: number;
  /** Variance of the deposit gained per unit of mean deposit gained (the scale of a gamma process). */
  diffusion: number;
  /** Relative sd by which a unit's rate drifts in a year (as its square root of time). */
  drift: number;
  /** Part of the fresh deposit a cleaning takes off: mean, spread between units, spread between cleanings of one unit. */
  /** `baked`: part of what a cleaning leaves that no later one takes off, short of washing right through. */
  restore: { mean: number; unitSd: number; cleaningSd: number; baked: number };
  /** Growth that levels off (Kern–Seaton): prior probability, and the deposit that it comes to in the end. */
  levelling: { probability: number; ceiling: number };
  /** Growth that feeds on itself, as time to the power `power`: prior probability. */
  accelerating: { probability: number; power: number };
  /** Chance in a year that the rate is drawn anew: a fryer added, another menu, other hours. */
  changePerYear: number;
  /** Yearly course of the rate by placement, where the evidence asked for one. */
  season: Partial<Record<Placement, Season>>;
  /** Chance that a grade written down says nothing of the coil; and by person, the chance that a look is such a one and says this grade. */
  misread: number;
  eyes: Record<string, readonly number[]>;
  /** Deposits at which an eye moves to the next coil grade, and the spread between eyes. */
  grades: { thresholds: readonly [number, number, number, number]; sd: number };
  /** Days that a coil had run when its record begins, in the mean, where nobody knows when it was last cleaned. */
  unknownRunDays: number;
  /** A reading further than this many predictive sds from what was expected counts as if it were just so far. */
  clipSds: number;
};

// Days in which a coil there usually packs. Orders follow plume grease by appliance (Kuehn et al., ASHRAE Trans.: wok
// and solid-fuel broiler far ahead) and trade intervals (monthly by fryers, woks and charbroilers; quarterly elsewhere);
// the numbers themselves are judgement, to be replaced by the fleet's own history.
const PACKED_DAYS: Record<Placement, number> = {
  fryer: 120,
  charbroiler: 120,
  wok: 100,
  griddle: 180,
  bakery: 220,
  line: 280,
  back_of_house: 500,
  bar: 600,
  outdoors: 450,
};

const THRESHOLDS = [0.05, 0.15, 0.32, 0.6] as const;

// The ceiling, past packed: a coil that chokes brings itself less lint, so growth levels off by deposit and not by days; seeds 1 and 2 of
// the invented fleets set it, together with how many units the judged shapes count for (`fit.ts`). Drift and change: where the fleet has
// not spoken yet, set by seed 1 of the invented fleets; the fit moves both.
export const DEFAULT_HYPER: Hyper = {
  modelVersion: MODEL_VERSION,
  lnRate: Object.fromEntries(PLACEMENTS.map((p) => [p, Math.log(THRESHOLDS[3] / PACKED_DAYS[p])])) as Record<Placement, number>,
  unitSd: 0.42,
  kitchenSd: 0.35,
  diffusion: 0.02,
  drift: 0.15,
  restore: { mean: 0.95, unitSd: 0.03, cleaningSd: 0.05, baked: 0.4 },
  levelling: { probability: 0.3, ceiling: 0.7 },
  accelerating: { probability: 0.2, power: 1.6 },
  changePerYear: 0.05,
  season: {},
  misread: 0.03,
  eyes: {},
  grades: { thresholds: THRESHOLDS, sd: 0.05 },
  unknownRunDays: 60,
  clipSds: 2.5,
};

/**
 * Coils choke at different deposits: sd of the logarithm of the ceiling between the coils of a fleet. Judgement; seeds 1 to 4 of the invented
 * fleets were looked at when it was set. A band of dates from one ceiling for all would be too sure.
 */
export const CEILING_SD = 0.25;

/** Components of the rate: normal pieces, evenly spaced in ln(rate), that together carry any smooth belief about it. */
export const RATE_STEP = 0.36;
export const RATE_COUNT = 16;
/** Relative sd of one piece. Wide enough for the sum to be smooth, narrow enough to stay above zero. */
export const PIECE_SD = 0.6 * RATE_STEP;
export const RATE_CENTRES: readonly number[] = Array.from({ length: RATE_COUNT }, (_, j) => -8.6 + j * RATE_STEP);

/** Shapes of growth: in a line, levelling off, feeding on itself. A piece's id is shape × RATE_COUNT + rate. */
export const SHAPES = 3;
export const shapePrior = (h: Pick<Hyper, 'levelling' | 'accelerating'>): readonly [number, number, number] => [
  1 - h.levelling.probability - h.accelerating.probability,
  h.levelling.probability,
  h.accelerating.probability,
];

/** Nodes of the kitchen effect, in kitchen sds. */
export const KITCHEN_NODES: readonly number[] = [-3, -2.25, -1.5, -0.75, 0, 0.75, 1.5, 2.25, 3];

export type PriorTable = {
  /** Prior weight of each kitchen node. */
  node: Float64Array;
  /** given[n * RATE_COUNT + j]: weight of rate piece j at kitchen node n. */
  given: Float64Array;
  /** Weight of each rate piece when nothing is known of the kitchen. */
  marginal: Float64Array;
  logMarginal: Float64Array;
};

const tables = new WeakMap<Hyper, Map<Placement, PriorTable>>();

/** Prior weights of the rate pieces for one placement, at each kitchen node. */
export function priorTable(hyper: Hyper, placement: Placement): PriorTable {
  let byPlacement = tables.get(hyper);
  if (!byPlacement) tables.set(hyper, (byPlacement = new Map()));
  let table = byPlacement.get(placement);
  if (!table) byPlacement.set(placement, (table = build(hyper, hyper.lnRate[placement])));
  return table;
}

/** Most units are like their kind; one in twelve is anything within wide bounds, so many times as wide. */
const STRANGE = { share: 0.08, times: 2.5 };
const kin = (z: number): number => (1 - STRANGE.share) * normalPdf(z);
const stranger = (z: number): number => (STRANGE.share * normalPdf(z / STRANGE.times)) / STRANGE.times;
const heavy = (z: number): number => kin(z) + stranger(z);

/**
 * How much a unit `z` sds off its kind counts when centre and spread are learned: its expected precision, 1 if surely of its kind
 * (expectation-maximisation of a mixture of scales; Lange, Little & Taylor 1989).
 */
export const countsFor = (z: number): number => (kin(z) + stranger(z) / STRANGE.times ** 2) / heavy(z);

/** Spread of units that the weights of the pieces carry; the pieces are themselves wide. */
export const weightsSd = ({ unitSd }: Pick<Hyper, 'unitSd'>): number =>
  Math.sqrt(Math.max(unitSd ** 2 - PIECE_SD ** 2, (0.35 * RATE_STEP) ** 2));

function build(hyper: Hyper, mean: number): PriorTable {
  const node = Float64Array.from(KITCHEN_NODES, normalPdf);
  scale(node, 0, node.length);
  const sd = weightsSd(hyper);
  const given = new Float64Array(KITCHEN_NODES.length * RATE_COUNT);
  KITCHEN_NODES.forEach((z, n) => {
    for (let j = 0; j < RATE_COUNT; j++)
      given[n * RATE_COUNT + j] = heavy(((RATE_CENTRES[j] as number) - mean - z * hyper.kitchenSd) / sd) + 1e-12;
    scale(given, n * RATE_COUNT, RATE_COUNT);
  });
  const marginal = new Float64Array(RATE_COUNT);
  given.forEach((w, k) => (marginal[k % RATE_COUNT]! += w * (node[Math.floor(k / RATE_COUNT)] as number)));
  return { node, given, marginal, logMarginal: marginal.map(Math.log) };
}

function scale(a: Float64Array, from: number, length: number): void {
  let sum = 0;
  for (let i = from; i < from + length; i++) sum += a[i] as number;
  for (let i = from; i < from + length; i++) a[i] = (a[i] as number) / sum;
}
