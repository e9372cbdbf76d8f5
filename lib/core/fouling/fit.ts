import { PLACEMENTS, type Placement } from '../equipment/build';
import { AT, STRIDE } from './filter';
import type { FleetUnit } from './fleet';
import { KITCHEN_NODES, MODEL_VERSION, PIECE_SD, priorTable, RATE_CENTRES, RATE_COUNT, RATE_STEP, type Hyper } from './hyper';
import { NO_MESSAGE, weigh } from './pooling';
import { filterHistory } from './posterior';

/**
 * Empirical Bayes: the fleet's own hyperparameters by expectation-maximisation (Dempster, Laird & Rubin 1977) over the
 * rate pieces and kitchen nodes, each held by a prior worth a few units so that a small fleet moves them little.
 */
const WORTH = { rateSd: 0.35, spread: 8, kitchens: 8, restore: 10, shape: 10 };

type Seen = {
  placement: Placement;
  kitchenId: string;
  linear: Float64Array;
  curved: Float64Array;
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
      linear: new Float64Array(RATE_COUNT),
      curved: new Float64Array(RATE_COUNT),
      cleaned: run.evidence.cleanings > 0,
      lost: 0,
      lostVar: 0,
      logEvidence,
    };
    let best = -Infinity;
    for (let o = AT.LL; o < run.bank.length; o += STRIDE) best = Math.max(best, run.bank[o] as number);
    let square = 0;
    for (let i = 0, o = 0; i < weights.length; i++, o += STRIDE) {
      const id = run.bank[o] as number;
      (id < RATE_COUNT ? seen.linear : seen.curved)[id % RATE_COUNT] = Math.exp((run.bank[o + AT.LL] as number) - best);
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

/** One step: expectations under `h`, then the hyperparameters that fit them best. */
function step(kitchens: readonly Seen[][], h: Hyper, base: Hyper): Hyper {
  const total = Object.fromEntries(PLACEMENTS.map((p) => [p, { n: 0, x: 0 }])) as Record<Placement, { n: number; x: number }>;
  let [spread, units, kitchenSquare, curved] = [0, 0, 0, 0];
  const p = h.asymptotic.probability;
  for (const kitchen of kitchens) {
    const log = KITCHEN_NODES.map((_, n) => Math.log(priorTable(h, 'line').node[n] as number));
    const joint = kitchen.map((u) => {
      const { given } = priorTable(h, u.placement);
      return KITCHEN_NODES.map((_, n) => {
        let sum = 0;
        for (let j = 0; j < RATE_COUNT; j++)
          sum += (given[n * RATE_COUNT + j] as number) * ((1 - p) * (u.linear[j] as number) + p * (u.curved[j] as number));
        log[n]! += Math.log(sum);
        return sum;
      });
    });
    const top = Math.max(...log);
    const node = log.map((l) => Math.exp(l - top));
    const sum = node.reduce((a, b) => a + b, 0);
    node.forEach((w, n) => (kitchenSquare += (w / sum) * ((KITCHEN_NODES[n] as number) * h.kitchenSd) ** 2));
    kitchen.forEach((u, i) => {
      const { given } = priorTable(h, u.placement);
      const t = total[u.placement];
      t.n++;
      units++;
      node.forEach((w, n) => {
        const effect = (KITCHEN_NODES[n] as number) * h.kitchenSd;
        for (let j = 0; j < RATE_COUNT; j++) {
          const g = ((w / sum) * (given[n * RATE_COUNT + j] as number)) / ((joint[i] as number[])[n] as number);
          const c = g * p * (u.curved[j] as number);
          const r = c + g * (1 - p) * (u.linear[j] as number);
          const x = (RATE_CENTRES[j] as number) - effect;
          t.x += r * x;
          spread += r * (x - h.lnRate[u.placement]) ** 2;
          curved += c;
        }
      });
    });
  }
  const unitVar = (spread + units * PIECE_SD ** 2 + WORTH.spread * base.unitSd ** 2) / (units + WORTH.spread);
  const lnRate = { ...h.lnRate };
  for (const place of PLACEMENTS) {
    const { n, x } = total[place];
    lnRate[place] = (x / unitVar + base.lnRate[place] / WORTH.rateSd ** 2) / (n / unitVar + 1 / WORTH.rateSd ** 2);
  }
  return {
    ...h,
    lnRate,
    // Narrower than one piece cannot be told from it.
    unitSd: Math.sqrt(Math.max(unitVar, PIECE_SD ** 2 + (0.35 * RATE_STEP) ** 2)),
    kitchenSd: Math.sqrt((kitchenSquare + WORTH.kitchens * base.kitchenSd ** 2) / (kitchens.length + WORTH.kitchens)),
    asymptotic: {
      ...h.asymptotic,
      probability: (curved + WORTH.shape * base.asymptotic.probability) / (units + WORTH.shape),
    },
  };
}

function restoreStep(seen: readonly Seen[], h: Hyper, base: Hyper): Hyper {
  const cleaned = seen.filter((s) => s.cleaned);
  const n = cleaned.length + WORTH.restore;
  const lost = (cleaned.reduce((a, s) => a + s.lost, 0) + WORTH.restore * (1 - base.restore.mean)) / n;
  const variance = (cleaned.reduce((a, s) => a + s.lostVar + (s.lost - lost) ** 2, 0) + WORTH.restore * base.restore.unitSd ** 2) / n;
  return { ...h, restore: { ...h.restore, mean: 1 - lost, unitSd: Math.sqrt(variance) } };
}

function evidenceOf(units: readonly FleetUnit[], h: Hyper): number {
  return look(units, h).reduce((a, s) => a + s.logEvidence, 0);
}

/** The one of three scales of process noise that the evidence likes best, a doubling costing as much as a prior sd of ln 2. */
function diffusionStep(units: readonly FleetUnit[], h: Hyper, base: Hyper): Hyper {
  const score = (d: number) => evidenceOf(units, { ...h, diffusion: d }) - 0.5 * (Math.log(d / base.diffusion) / Math.LN2) ** 2;
  const options = [h.diffusion / 1.5, h.diffusion, h.diffusion * 1.5].map((d) => ({ d, s: score(d) }));
  return { ...h, diffusion: options.reduce((a, b) => (b.s > a.s ? b : a)).d };
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
  const few = sample(used, 400);
  for (let round = 0; round < 3; round++) {
    const seen = look(used, h);
    const kitchens = byKitchen(seen);
    for (let i = 0; i < 8; i++) h = step(kitchens, h, base);
    h = restoreStep(seen, h, base);
    h = diffusionStep(few, h, base);
  }
  return h;
}
