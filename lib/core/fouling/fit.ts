import { PLACEMENTS, type Placement } from '../equipment/build';
import { AT, STRIDE } from './filter';
import type { FleetUnit } from './fleet';
import {
  KITCHEN_NODES,
  MODEL_VERSION,
  PIECE_SD,
  priorTable,
  RATE_CENTRES,
  RATE_COUNT,
  RATE_STEP,
  shapePrior,
  SHAPES,
  type Hyper,
} from './hyper';
import { learnEyes, learnScales, learnSeasons } from './learn';
import { NO_MESSAGE, weigh } from './pooling';
import { filterHistory } from './posterior';

/**
 * Empirical Bayes: the fleet's own hyperparameters by expectation-maximisation (Dempster, Laird & Rubin 1977) over the
 * rate pieces and kitchen nodes, each held by a prior worth a few units so that a small fleet moves them little.
 */
const WORTH = { fleetSd: 0.25, rateSd: 0.25, spread: 8, kitchens: 8, restore: 10, shape: 10 };

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

type Totals = { place: Record<Placement, { n: number; x: number }>; spread: number; units: number; kitchenSquare: number; shape: number[] };

/** Expected sums under `h` that the next hyperparameters are made of. */
function expectations(kitchens: readonly Seen[][], h: Hyper): Totals {
  const place = Object.fromEntries(PLACEMENTS.map((p) => [p, { n: 0, x: 0 }])) as Record<Placement, { n: number; x: number }>;
  const t: Totals = { place, spread: 0, units: 0, kitchenSquare: 0, shape: [0, 0, 0] };
  const shapes = shapePrior(h);
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
    node.forEach((w, n) => (t.kitchenSquare += (w / sum) * ((KITCHEN_NODES[n] as number) * h.kitchenSd) ** 2));
    kitchen.forEach((u, i) => {
      const { given } = priorTable(h, u.placement);
      const own = t.place[u.placement];
      own.n++;
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
          own.x += r * x;
          // A unit unlike all its kind counts as if it were just so far off.
          t.spread += r * Math.min((x - h.lnRate[u.placement]) ** 2, (3 * h.unitSd) ** 2);
        }
      });
    });
  }
  return t;
}

/** One step: expectations under `h`, then the hyperparameters that fit them best. */
function step(kitchens: readonly Seen[][], h: Hyper, base: Hyper): Hyper {
  const { place, spread, units, kitchenSquare, shape } = expectations(kitchens, h);
  const unitVar = (spread + units * PIECE_SD ** 2 + WORTH.spread * base.unitSd ** 2) / (units + WORTH.spread);
  // What all placements have in common (this shop's trade is faster, or slower, than judged) is learned first.
  let [common, weight] = [0, 1 / WORTH.fleetSd ** 2];
  for (const p of PLACEMENTS) {
    const { n, x } = place[p];
    if (n === 0) continue;
    const w = 1 / (unitVar / n + WORTH.rateSd ** 2);
    common += w * (x / n - base.lnRate[p]);
    weight += w;
  }
  const lnRate = { ...h.lnRate };
  for (const p of PLACEMENTS) {
    const { n, x } = place[p];
    lnRate[p] = (x / unitVar + (base.lnRate[p] + common / weight) / WORTH.rateSd ** 2) / (n / unitVar + 1 / WORTH.rateSd ** 2);
  }
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

function restoreStep(seen: readonly Seen[], h: Hyper, base: Hyper): Hyper {
  const cleaned = seen.filter((s) => s.cleaned);
  const n = cleaned.length + WORTH.restore;
  const lost = (cleaned.reduce((a, s) => a + s.lost, 0) + WORTH.restore * (1 - base.restore.mean)) / n;
  const variance = (cleaned.reduce((a, s) => a + s.lostVar + (s.lost - lost) ** 2, 0) + WORTH.restore * base.restore.unitSd ** 2) / n;
  return { ...h, restore: { ...h.restore, mean: 1 - lost, unitSd: Math.sqrt(variance) } };
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
  let h: Hyper = { ...base, modelVersion: `${MODEL_VERSION}+${label}` };
  if (used.length === 0) return h;
  const few = sample(used, 250);
  for (let round = 0; round < 3; round++) {
    const seen = look(used, h);
    const kitchens = byKitchen(seen);
    for (let i = 0; i < 8; i++) h = step(kitchens, h, base);
    h = restoreStep(seen, h, base);
    h = learnScales(few, h, base);
    h = learnEyes(few, h);
  }
  return learnSeasons(few, h);
}
