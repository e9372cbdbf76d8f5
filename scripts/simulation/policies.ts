import { daysBetween, weeksRule } from '../../lib/core/calendar';
import {
  DEFAULT_HYPER,
  fitHyper,
  fleetPosteriors,
  forecast,
  kitchenWord,
  posterior,
  updatePosterior,
  type FoulingPosterior,
  type Hyper,
  type UnitEvent,
  type UnitHistory,
} from '../../lib/core/fouling';
import { DEFAULT_POLICY, initialCoilWeeks, reviseCoilRule, type ShopPolicy } from '../../lib/core/intervals';
import { dateOf, FIRST_DAY } from './visit';
import type { TrueUnit, World } from './world';

export type Next = { days: number; returnDays: number | null; deepClean: boolean };

/** A policy hears what is written down at visits, never the truth, and says in how many days to come again. */
export type Policy = {
  name: string;
  first: (unit: TrueUnit, index: number) => number;
  /** After a cleaning: days to the next one, to a return visit if one is called for, and whether the next is a deep one. */
  next: (index: number, day: number, events: UnitEvent[]) => Next;
  /** 10 and 90 % points of the days until a limit (Infinity = beyond ten years), with the chance that it comes by then; null where a policy makes no forecast. */
  band: (index: number, day: number) => { low: number; high: number; ever: number } | null;
  /** Once a day, for anything done by the calendar. */
  daily: (day: number) => void;
};

const QUARTER = 91;

export const fixedQuarterly: Policy = {
  name: 'fixed quarterly',
  first: () => QUARTER,
  next: () => ({ days: QUARTER, returnDays: null, deepClean: false }),
  band: () => null,
  daily: () => {},
};

/** Days between two refits of the fleet's hyperparameters. */
const REFIT_DAYS = 182;

/** The product's own rules, as a shop with default settings would run them. */
export function evidencePolicy(world: World, settings: ShopPolicy = DEFAULT_POLICY): Policy {
  const units = world.units.map((u) => ({
    exposure: { placement: u.placement, kitchenId: u.kitchenId },
    history: { startedOn: FIRST_DAY, startedClean: true, events: [] as UnitEvent[] } satisfies UnitHistory,
  }));
  let hyper: Hyper = DEFAULT_HYPER;
  let beliefs: FoulingPosterior[] = units.map((u) => posterior(u.history, u.exposure, hyper));
  const rules: string[] = [];
  const limit = settings.limits[0];
  if (!limit) throw new RangeError('The simulation needs a limit.');
  return {
    name: 'by evidence',
    first: (_, i) => {
      const weeks = initialCoilWeeks(beliefs[i] as FoulingPosterior, settings);
      rules[i] = weeksRule(weeks);
      return weeks * 7;
    },
    next: (i, day, events) => {
      const unit = units[i] as (typeof units)[number];
      unit.history = { ...unit.history, events: [...unit.history.events, ...events] };
      const others = beliefs.filter((b, j) => j !== i && b.exposure.kitchenId === unit.exposure.kitchenId);
      const belief = updatePosterior(beliefs[i] as FoulingPosterior, events, hyper, kitchenWord(others));
      beliefs[i] = belief;
      const on = dateOf(day);
      const revision = reviseCoilRule({
        history: unit.history,
        posterior: belief,
        hyper,
        settings,
        currentRule: rules[i] as string,
        anchor: 'last_completed',
        lastDoneOn: on,
      });
      rules[i] = revision.rule;
      return {
        days: daysBetween(on, revision.dueOn),
        returnDays: revision.returnVisitWithinDays ?? null,
        deepClean: revision.deepClean !== undefined,
      };
    },
    band: (i, day) => {
      const { quantiles: q, ever } = forecast(beliefs[i] as FoulingPosterior, limit, dateOf(day));
      const days = (d: typeof q.p10) => (d === null ? Infinity : daysBetween(dateOf(day), d));
      return { low: days(q.p10), high: days(q.p90), ever };
    },
    daily: (day) => {
      if (day === 0 || day % REFIT_DAYS !== 0) return;
      hyper = fitHyper(units, DEFAULT_HYPER, `day ${day}`);
      beliefs = fleetPosteriors(units, hyper);
    },
  };
}
