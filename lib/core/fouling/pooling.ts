import type { Placement } from '../equipment';
import { AT, isAsymptotic, STRIDE, type Bank } from './filter';
import { KITCHEN_NODES, priorTable, RATE_COUNT, type Hyper } from './hyper';

/**
 * What a kitchen's units say of the kitchen: ln likelihood at each node of the kitchen effect. Messages of units add;
 * the sum over a unit's neighbours is the kitchen's word to that unit. Exact for this model, and a new visit costs one
 * message. Source: Gelman et al., "Bayesian Data Analysis", ch. 5 (hierarchical normal model).
 */
export type KitchenMessage = readonly number[];
export const NO_MESSAGE: KitchenMessage = KITCHEN_NODES.map(() => 0);

const NODES = KITCHEN_NODES.length;

/** Likelihood of each piece against the best (with the shape's prior in it), and its sum by rate. */
function likelihoods(bank: Bank, hyper: Hyper) {
  const count = bank.length / STRIDE;
  let best = -Infinity;
  for (let i = 0; i < count; i++) best = Math.max(best, bank[i * STRIDE + AT.LL] as number);
  const p = hyper.asymptotic.probability;
  const each = new Float64Array(count);
  const byRate = new Float64Array(RATE_COUNT);
  for (let i = 0; i < count; i++) {
    const id = bank[i * STRIDE] as number;
    const l = Math.exp((bank[i * STRIDE + AT.LL] as number) - best) * (isAsymptotic(id) ? p : 1 - p);
    each[i] = l;
    byRate[id % RATE_COUNT]! += l;
  }
  return { each, byRate, best };
}

/** Weights of the pieces from the unit's own evidence and its exposure, whatever its kitchen says. */
export function ownWeights(bank: Bank, hyper: Hyper, placement: Placement): Float64Array {
  const { each } = likelihoods(bank, hyper);
  const { marginal } = priorTable(hyper, placement);
  let sum = 0;
  for (let i = 0; i < each.length; i++)
    sum += each[i] = (each[i] as number) * (marginal[(bank[i * STRIDE] as number) % RATE_COUNT] as number);
  for (let i = 0; i < each.length; i++) each[i]! /= sum;
  return each;
}

export type Weighing = { weights: Float64Array; message: KitchenMessage; logEvidence: number };

/** Posterior weight of each piece of a bank, and the message of this unit to its kitchen. */
export function weigh(bank: Bank, hyper: Hyper, placement: Placement, fromKitchen: KitchenMessage): Weighing {
  const { node, given } = priorTable(hyper, placement);
  const { each, byRate, best } = likelihoods(bank, hyper);
  const message = new Array<number>(NODES);
  const rateWeight = new Float64Array(RATE_COUNT);
  let top = -Infinity;
  for (const m of fromKitchen) top = Math.max(top, m);
  let evidence = 0;
  let prior = 0;
  for (let n = 0; n < NODES; n++) {
    const row = n * RATE_COUNT;
    let sum = 0;
    for (let j = 0; j < RATE_COUNT; j++) sum += (given[row + j] as number) * (byRate[j] as number);
    message[n] = Math.log(sum) + best;
    const w = (node[n] as number) * Math.exp((fromKitchen[n] as number) - top);
    evidence += w * sum;
    prior += w;
    for (let j = 0; j < RATE_COUNT; j++) rateWeight[j]! += w * (given[row + j] as number);
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
