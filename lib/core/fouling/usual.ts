import { KITCHEN_NODES, priorTable, type Hyper } from './hyper';
import type { FoulingPosterior } from './summary';

/** Days in which coils of this exposure, in this kitchen as far as its other units tell, usually reach a deposit (median). */
export function usualDays(p: FoulingPosterior, hyper: Hyper, deposit: number): number {
  const { node } = priorTable(hyper, p.exposure.placement);
  const top = Math.max(...p.fromKitchen);
  let sum = 0;
  let effect = 0;
  KITCHEN_NODES.forEach((z, n) => {
    const w = (node[n] as number) * Math.exp((p.fromKitchen[n] as number) - top);
    sum += w;
    effect += w * z;
  });
  return deposit / Math.exp(hyper.lnRate[p.exposure.placement] + (effect / sum) * hyper.kitchenSd);
}
