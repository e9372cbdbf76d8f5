import type { Placement } from '../equipment/build';
import { AT, shapeOf, STRIDE, type Bank } from './filter';
import { KITCHEN_NODES, priorTable, RATE_COUNT, shapePrior, type Hyper } from './hyper';

/**
 * What a kitchen's units say of the kitchen: ln likelihood at each node of the kitchen effect. Messages of units add;
 * the sum over a unit's neighbours is the kitchen's word to that unit. Exact for this model, and a new visit costs one
 * message. Source: Gelman et al., "Bayesian Data Analysis", ch. 5 (hierarchical normal model).
 */
export type KitchenMessage = readonly number[];
export const NO_MESSAGE: KitchenMessage = KITCHEN_NODES.map(() => 0);

const NODES = KITCHEN_NODES.length;

// One scratch table, since nothing here is entered twice at once: these run several times for every visit of a fleet.
const byRate = new Float64Array(RATE_COUNT);

/** Fills `each` with the likelihood of every piece against the best, times its shape's prior. Returns the best. */
function likelihoods(bank: Bank, hyper: Hyper, each: Float64Array): number {
  let best = -Infinity;
  for (let o = AT.LL; o < bank.length; o += STRIDE) if ((bank[o] as number) > best) best = bank[o] as number;
  const shapes = shapePrior(hyper);
  for (let i = 0, o = 0; o < bank.length; i++, o += STRIDE)
    each[i] = Math.exp((bank[o + AT.LL] as number) - best) * (shapes[shapeOf(bank[o] as number)] as number);
  return best;
}

/** Weights of the pieces from the unit's own evidence and its exposure, whatever its kitchen says. `into` has room for all. */
export function ownWeights(bank: Bank, hyper: Hyper, placement: Placement, into: Float64Array): void {
  likelihoods(bank, hyper, into);
  const { marginal } = priorTable(hyper, placement);
  const count = bank.length / STRIDE;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += into[i] = (into[i] as number) * (marginal[(bank[i * STRIDE] as number) % RATE_COUNT] as number);
  for (let i = 0; i < count; i++) into[i]! /= sum;
}

export type Weighing = { weights: Float64Array; message: KitchenMessage; logEvidence: number };

/** Posterior weight of each piece of a bank, and the message of this unit to its kitchen. */
export function weigh(bank: Bank, hyper: Hyper, placement: Placement, fromKitchen: KitchenMessage): Weighing {
  const { node, given } = priorTable(hyper, placement);
  const each = new Float64Array(bank.length / STRIDE);
  const best = likelihoods(bank, hyper, each);
  byRate.fill(0);
  for (let i = 0; i < each.length; i++) byRate[(bank[i * STRIDE] as number) % RATE_COUNT]! += each[i] as number;
  const message = new Array<number>(NODES);
  let top = -Infinity;
  for (let n = 0; n < NODES; n++) if ((fromKitchen[n] as number) > top) top = fromKitchen[n] as number;
  const rateWeight = new Float64Array(RATE_COUNT);
  let evidence = 0;
  let prior = 0;
  for (let n = 0; n < NODES; n++) {
    const row = n * RATE_COUNT;
    const w = (node[n] as number) * Math.exp((fromKitchen[n] as number) - top);
    let sum = 0;
    for (let j = 0; j < RATE_COUNT; j++) {
      const g = given[row + j] as number;
      sum += g * (byRate[j] as number);
      rateWeight[j]! += w * g;
    }
    message[n] = Math.log(sum) + best;
    evidence += w * sum;
    prior += w;
  }
  for (let i = 0; i < each.length; i++)
    each[i] = ((rateWeight[(bank[i * STRIDE] as number) % RATE_COUNT] as number) * (each[i] as number)) / evidence;
  return { weights: each, message, logEvidence: Math.log(evidence / prior) + best };
}

/** The sum of messages. */
export function combine(messages: Iterable<KitchenMessage>): KitchenMessage {
  const sum = KITCHEN_NODES.map(() => 0);
  for (const m of messages) for (let n = 0; n < NODES; n++) sum[n]! += m[n] as number;
  return sum;
}

/** A kitchen's word to one of its units: everything the others said. */
export function withoutOne(all: KitchenMessage, own: KitchenMessage): KitchenMessage {
  return all.map((m, n) => m - (own[n] as number));
}
