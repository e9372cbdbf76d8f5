import { PLACEMENTS, type Placement } from '../equipment/build';
import { AT, STRIDE } from './filter';
import type { FleetUnit } from './fleet';
import {
  countsFor,
  KITCHEN_NODES,
  MODEL_VERSION,
  PIECE_SD,
  priorTable,
  RATE_CENTRES,
  RATE_COUNT,
  RATE_STEP,
  shapePrior,
  SHAPES,
  weightsSd,
  type Hyper,
} from './hyper';
import { learnEyes, learnScales, learnSeasons } from './learn';
import { NO_MESSAGE, weigh } from './pooling';
import { filterHistory } from './posterior';

/**
 * Empirical Bayes: the fleet's own hyperparameters by expectation-maximisation (Dempster, Laird & Rubin 1977) over the
 * rate pieces and kitchen nodes, each held by a prior worth a few units so that a small fleet moves them little. A whole shop may be
 * half as fast again as judged, or slower (`fleetSd`; judgement); one placement against the others less so. In one shop hardly a coil levels
 * off, in another nearly all do: what is judged of the shapes counts for four units (sd 0.2 of a share). What cleanings take off is judged to a
 * tenth; their spread over units counts for ten of them.
 */
const WORTH = { fleetSd: 0.4, rateSd: 0.25, spread: 8, kitchens: 8, restore: 10, restoreSd: 0.1, shape: 4 };

type Seen = {
  placement: Placement;
  kitchenId: string;
  /** Likelihood of each piece against the best, by id. */
  pieces: Float64Array;
  cleaned: boolean;
  lost: number;
  lostVar: number;
  logEvidence: number;
};

function look(units: readonly FleetUnit[], hyper: Hyper): Seen[] {
  return units.map(({ history, exposure }) => {
    const { run } = filterHistory(history, exposure, hyper);
    const { weights, logEvidence } = weigh(run.bank, hyper, exposure.placement, NO_MESSAGE);
    const seen: Seen = {
      placement: exposure.placement,
      kitchenId: exposure.kitchenId,
      pieces: new Float64Array(SHAPES * RATE_COUNT),
      cleaned: run.evidence.cleanings > 0,
      lost: 0,
      lostVar: 0,
      logEvidence,
    };
    let best = -Infinity;
    for (let o = AT.LL; o < run.bank.length; o += STRIDE) best = Math.max(best, run.bank[o] as number);
    let square = 0;
    for (let i = 0, o = 0; i < weights.length; i++, o += STRIDE) {
      seen.pieces[run.bank[o] as number] = Math.exp((run.bank[o + AT.LL] as number) - best);
      const q = run.bank[o + AT.Q] as number;
      seen.lost += (weights[i] as number) * q;
      square += (weights[i] as number) * (q * q + (run.bank[o + AT.QQ] as number));
    }
    seen.lostVar = Math.max(square - seen.lost ** 2, 0);
    return seen;
  });
}

function byKitchen(seen: readonly Seen[]): Seen[][] {
  const map = new Map<string, Seen[]>();
  for (const s of seen) {
    const list = map.get(s.kitchenId);
    if (list) list.push(s);
    else map.set(s.kitchenId, [s]);
  }
  return [...map.values()];
}

/** `n`: units by how much each counts. */
type Totals = {
  place: Record<Placement, { n: number; x: number }>;
  spread: number;
  units: number;
  kitchen: { sum: number; square: number };
  shape: number[];
};

/** How much a unit of one placement counts at each rate piece and kitchen node. */
function countsIn(h: Hyper, placement: Placement): Float64Array {
  const sd = weightsSd(h);
  const off = (n: number, j: number) => (RATE_CENTRES[j] as number) - (KITCHEN_NODES[n] as number) * h.kitchenSd - h.lnRate[placement];
  return Float64Array.from({ length: KITCHEN_NODES.length * RATE_COUNT }, (_, i) =>
    countsFor(off(Math.floor(i / RATE_COUNT), i % RATE_COUNT) / sd),
  );
}

/** Expected sums under `h` that the next hyperparameters are made of. */
function expectations(kitchens: readonly Seen[][], h: Hyper): Totals {
  const place = Object.fromEntries(PLACEMENTS.map((p) => [p, { n: 0, x: 0 }])) as Record<Placement, { n: number; x: number }>;
  const t: Totals = { place, spread: 0, units: 0, kitchen: { sum: 0, square: 0 }, shape: [0, 0, 0] };
  const shapes = shapePrior(h);
  const counts = new Map(PLACEMENTS.map((p) => [p, countsIn(h, p)]));
  const ofRate = (u: Seen, j: number) => shapes.reduce((sum, p, k) => sum + p * (u.pieces[k * RATE_COUNT + j] as number), 0);
  for (const kitchen of kitchens) {
    const log = KITCHEN_NODES.map((_, n) => Math.log(priorTable(h, 'line').node[n] as number));
    const joint = kitchen.map((u) => {
      const { given } = priorTable(h, u.placement);
      const rates = Array.from({ length: RATE_COUNT }, (_, j) => ofRate(u, j));
      return KITCHEN_NODES.map((_, n) => {
        let sum = 0;
        for (let j = 0; j < RATE_COUNT; j++) sum += (given[n * RATE_COUNT + j] as number) * (rates[j] as number);
        log[n]! += Math.log(sum);
        return sum;
      });
    });
    const top = Math.max(...log);
    const node = log.map((l) => Math.exp(l - top));
    const sum = node.reduce((a, b) => a + b, 0);
    node.forEach((w, n) => {
      const effect = (KITCHEN_NODES[n] as number) * h.kitchenSd;
      t.kitchen.sum += (w / sum) * effect;
      t.kitchen.square += (w / sum) * effect ** 2;
    });
    kitchen.forEach((u, i) => {
      const { given } = priorTable(h, u.placement);
      const own = t.place[u.placement];
      const counted = counts.get(u.placement);
      t.units++;
      node.forEach((w, n) => {
        const effect = (KITCHEN_NODES[n] as number) * h.kitchenSd;
        for (let j = 0; j < RATE_COUNT; j++) {
          const g = ((w / sum) * (given[n * RATE_COUNT + j] as number)) / ((joint[i] as number[])[n] as number);
          const x = (RATE_CENTRES[j] as number) - effect;
          let r = 0;
          for (let k = 0; k < SHAPES; k++) {
            const c = g * (shapes[k] as number) * (u.pieces[k * RATE_COUNT + j] as number);
            t.shape[k]! += c;
            r += c;
          }
          const off = x - h.lnRate[u.placement];
          const c = r * (counted?.[n * RATE_COUNT + j] ?? 1);
          own.n += c;
          own.x += c * x;
          t.spread += c * off * off;
        }
      });
    });
  }
  return t;
}

/**
 * How far this shop's trade as a whole (`common`, ln of how much faster than judged) should move, if the kitchens' own effects are `sum` in
 * all: with few kitchens those take up most of it, and step by step it would hardly move (parameter expansion; Liu, Rubin & Wu 1998).
 */
function shiftOf(common: number, sum: number, kitchens: number, { kitchenSd }: Hyper): number {
  const [ours, before] = [1 / kitchenSd ** 2, 1 / WORTH.fleetSd ** 2];
  return (ours * sum - before * common) / (ours * kitchens + before);
}

/** One step: expectations under `h`, then the hyperparameters that fit them best. */
function step(kitchens: readonly Seen[][], h: Hyper, base: Hyper): Hyper {
  const { place, spread, units, kitchen, shape } = expectations(kitchens, h);
  const unitVar = (spread + units * PIECE_SD ** 2 + WORTH.spread * base.unitSd ** 2) / (units + WORTH.spread);
  // What all placements have in common is learned first: those without a unit follow it.
  const met = PLACEMENTS.filter((p) => place[p].n > 0);
  const before = met.reduce((sum, p) => sum + h.lnRate[p] - base.lnRate[p], 0) / Math.max(1, met.length);
  const shift = shiftOf(before, kitchen.sum, kitchens.length, h);
  const lnRate = { ...h.lnRate };
  for (const p of PLACEMENTS) {
    const { n, x } = place[p];
    const usual = base.lnRate[p] + before + shift;
    lnRate[p] = ((x + n * shift) / unitVar + usual / WORTH.rateSd ** 2) / (n / unitVar + 1 / WORTH.rateSd ** 2);
  }
  const kitchenSquare = kitchen.square - 2 * shift * kitchen.sum + kitchens.length * shift ** 2;
  const probability = (k: number, of: number) => ((shape[k] as number) + WORTH.shape * of) / (units + WORTH.shape);
  return {
    ...h,
    lnRate,
    // Narrower than one piece cannot be told from it.
    unitSd: Math.sqrt(Math.max(unitVar, PIECE_SD ** 2 + (0.35 * RATE_STEP) ** 2)),
    kitchenSd: Math.sqrt((kitchenSquare + WORTH.kitchens * base.kitchenSd ** 2) / (kitchens.length + WORTH.kitchens)),
    levelling: { ...h.levelling, probability: probability(1, base.levelling.probability) },
    accelerating: { ...h.accelerating, probability: probability(2, base.accelerating.probability) },
  };
}

/**
 * What cleanings leave, mean and spread over units. A unit's belief with `h` taken out of it is what its own looks say, so that
 * expectation-maximisation runs to its end without going through the histories again; a step a look would take dozens.
 */
function restoreStep(seen: readonly Seen[], h: Hyper, base: Hyper): Hyper {
  const before = { mean: 1 - h.restore.mean, precision: 1 / h.restore.unitSd ** 2 };
  const said = seen.flatMap(({ cleaned, lost, lostVar }) => {
    const whole = 1 / Math.max(lostVar, 1e-8);
    const precision = whole - before.precision;
    return cleaned && precision > 0 ? [{ precision, mean: (lost * whole - before.mean * before.precision) / precision }] : [];
  });
  const n = said.length + WORTH.restore;
  const judged = { mean: 1 - base.restore.mean, precision: 1 / WORTH.restoreSd ** 2 };
  let [mean, variance] = [before.mean, h.restore.unitSd ** 2];
  for (let i = 0; i < 40; i++) {
    let [sum, square] = [0, WORTH.restore * base.restore.unitSd ** 2];
    const own = said.map((u) => {
      const left = 1 / (u.precision + 1 / variance);
      return { at: left * (u.precision * u.mean + mean / variance), left };
    });
    for (const u of own) sum += u.at;
    mean = (sum / variance + judged.mean * judged.precision) / (said.length / variance + judged.precision);
    for (const u of own) square += u.left + (u.at - mean) ** 2;
    variance = square / n;
  }
  return { ...h, restore: { ...h.restore, mean: 1 - mean, unitSd: Math.sqrt(variance) } };
}

/** At most `most` units, whole kitchens at a time, evenly over the list. */
function sample(units: readonly FleetUnit[], most: number): FleetUnit[] {
  if (units.length <= most) return [...units];
  const ids = [...new Set(units.map((u) => u.exposure.kitchenId))];
  const stride = Math.ceil(units.length / most);
  const keep = new Set(ids.filter((_, i) => i % stride === 0));
  return units.filter((u) => keep.has(u.exposure.kitchenId));
}

/**
 * Hyperparameters fitted to a fleet's histories. `label` (a date, say) is added to the model version, because beliefs
 * stored under other hyperparameters must be rebuilt. Uses at most 2,000 units; a fleet without evidence returns `base`.
 */
export function fitHyper(units: readonly FleetUnit[], base: Hyper, label: string): Hyper {
  const used = sample(
    units.filter((u) => u.history.events.length > 0),
    2000,
  );
  const h: Hyper = { ...base, modelVersion: `${MODEL_VERSION}+${label}` };
  if (used.length === 0) return h;
  const few = sample(used, 250);
  const first = rounds(1, used, few, h, base);
  const { season } = learnSeasons(few, first);
  if (Object.keys(season).length === 0) return rounds(2, used, few, first, base);
  // Without the year its course is taken for luck of growth, for units unlike each other and for coils that level off: all of that anew, with it.
  return rounds(3, used, few, { ...h, season }, base);
}

/** So many rounds of fitting from `start` on, its season left as it is. */
function rounds(count: number, used: readonly FleetUnit[], few: readonly FleetUnit[], start: Hyper, base: Hyper): Hyper {
  let h = start;
  for (let round = 0; round < count; round++) {
    const seen = look(used, h);
    const kitchens = byKitchen(seen);
    for (let i = 0; i < 8; i++) h = step(kitchens, h, base);
    h = restoreStep(seen, h, base);
    // What one person misreads would hide what all do.
    h = learnScales(few, { ...h, eyes: {} }, base);
    h = learnEyes(few, h);
  }
  return h;
}
