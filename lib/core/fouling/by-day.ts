import { toDay, type LocalDate } from '../calendar';
import { groupBy } from '../numerics/group-by';
import type { Bank } from './filter';
import { ordered, type Exposure, type UnitHistory } from './history';
import type { Hyper } from './hyper';
import { mixtureMoments, mixtureQuantile } from './mixture';
import { weigh, type KitchenMessage } from './pooling';
import { startRun } from './posterior';
import { leadTo, takeDay } from './run';
import { asLnK, band, depositsOf, type Band } from './summary';

/** Shares of a normal mixture are told this closely, so that a band is exact to some 1e-9 of ln K. */
const CLOSE = 1e-11;

/** Median of ln K with its 10–90 % band. */
export type Quantiles = { median: number; low: number; high: number };

/** A day with evidence: what was expected of ln K when somebody came, and what was believed when he left. */
export type BelievedOn = { on: LocalDate; met: Quantiles; left: Band };

/** Where the deposit of a bank lies, at one moment: the quantiles of a mixture of normals, told as ln K. */
export function quantilesOf(bank: Bank, weights: ArrayLike<number>): Quantiles {
  const deposits = depositsOf(bank, weights);
  const start = mixtureMoments(deposits);
  const at = (p: number) => -mixtureQuantile(deposits, p, start, CLOSE);
  return { median: at(0.5), low: at(0.9), high: at(0.1) };
}

/** A history gone through once, day of evidence by day of evidence, as it was known then. Events before `startedOn` are not to be among it. */
export function believedByDay(history: UnitHistory, exposure: Exposure, hyper: Hyper, fromKitchen: KitchenMessage): BelievedOn[] {
  const run = startRun(history, exposure, hyper);
  const believed = (bank: Bank) => weigh(bank, hyper, exposure.placement, fromKitchen).weights;
  let weights = believed(run.bank);
  const days: BelievedOn[] = [];
  for (const [on, today] of groupBy(ordered(history.events), (e) => e.on)) {
    const day = toDay(on);
    const met = run.bank.slice();
    leadTo(met, run, hyper, exposure, day);
    const expected = quantilesOf(met, weights);
    takeDay(run, hyper, exposure, day, today);
    weights = believed(run.bank);
    days.push({ on, met: expected, left: asLnK(band(depositsOf(run.bank, weights))) });
  }
  return days;
}
