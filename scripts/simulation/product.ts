import { daysBetween, weeksRule } from '../../lib/core/calendar';
import { condenserUnitOf, conditionsOf } from '../../lib/core/condenser/from-record';
import { cleanPrior } from '../../lib/core/condenser';
import { decide, failuresOf, type TaskOnFile, type UnitBelief, type UnitFile } from '../../lib/core/evidence';
import { DEFAULT_POLICY, type ShopPolicy } from '../../lib/core/intervals';
import {
  DEFAULT_HYPER, fitHyper, fleetPosteriors, forecast, kitchenWord, posterior, updatePosterior,
  type FoulingPosterior, type Hyper, type UnitEvent, type UnitHistory,
} from '../../lib/core/fouling'; // prettier-ignore
import { initialCoilWeeks } from '../../lib/core/intervals';
import type { Policy } from './run';
import { dateOf, FIRST_DAY } from './visit';
import type { TrueUnit, World } from './world';

/** Days on which the fleet is fitted anew: soon at first, then twice a year. A shop does so every week. */
const REFITS = new Set([60, 120, 182, 274, 365, 548, 730, 913, 1096, 1278]);

function fileOf(unit: TrueUnit): UnitFile {
  const core = condenserUnitOf({ kind: 'reach_in', refrigerant: 'R134a', placement: unit.placement }, {});
  return {
    unitId: unit.id,
    kitchenId: unit.kitchenId,
    unit: core,
    conditions: conditionsOf(core, {}, 'USD'),
    startedOn: FIRST_DAY,
    cleanings: [],
    findings: [],
    readings: [],
    trips: [],
    washed: [],
    changes: [],
  };
}

/** The product's own decision, as a shop with the settings that the program brings would run it. */
export function product(
  world: World,
  rules: ShopPolicy = DEFAULT_POLICY,
  base: Hyper = DEFAULT_HYPER,
): Policy & { first: (i: number) => number } {
  const units = world.units.map((u) => ({
    file: fileOf(u),
    exposure: { placement: u.placement, kitchenId: u.kitchenId },
    history: { startedOn: FIRST_DAY, startedClean: true, events: [] as UnitEvent[] } satisfies UnitHistory,
  }));
  let hyper: Hyper = base;
  let beliefs: FoulingPosterior[] = units.map((u) => posterior(u.history, u.exposure, hyper));
  const tasks: TaskOnFile[] = [];
  const limit = rules.limits[0];
  if (!limit) throw new RangeError('The simulation needs a limit.');
  return {
    name: 'the product',
    first: (i) => {
      const weeks = initialCoilWeeks(beliefs[i] as FoulingPosterior, rules);
      tasks[i] = {
        taskId: 't', unitId: (world.units[i] as TrueUnit).id, kindKey: 'coil_cleaning', rule: weeksRule(weeks), anchor: 'last_completed',
        anchorDate: FIRST_DAY, locked: false, minWeeks: 1, maxWeeks: 104, dueOn: dateOf(weeks * 7), lastDoneOn: FIRST_DAY, doneOn: [],
        mine: null, lastChangeOn: null, lastHeldRule: null,
      }; // prettier-ignore
      return weeks * 7;
    },
    next: (i, day, events) => {
      const unit = units[i] as (typeof units)[number];
      unit.history = { ...unit.history, events: [...unit.history.events, ...events] };
      const others = beliefs.filter((b, j) => j !== i && b.exposure.kitchenId === unit.exposure.kitchenId);
      const fouling = updatePosterior(beliefs[i] as FoulingPosterior, events, hyper, kitchenWord(others));
      beliefs[i] = fouling;
      const on = dateOf(day);
      const evidence = { baseline: cleanPrior(unit.file.unit), history: unit.history, looks: [], broken: [] };
      const belief: UnitBelief = {
        file: unit.file,
        evidence,
        fouling,
        failures: failuresOf(unit.file, evidence, { fouling: hyper, failures: {} }),
      };
      const task = tasks[i] as TaskOnFile;
      const decision = decide(task, { on, doneTaskIds: new Set(['t']), preferredWeekday: null }, belief, { rules, hyper, own: null });
      if (!decision?.dueOn) throw new Error('A rule without an end has ended.');
      const { rule, dueOn } = decision;
      tasks[i] = { ...task, rule, dueOn, lastDoneOn: on, doneOn: [on], lastChangeOn: decision.record ? on : task.lastChangeOn };
      const packed = events.some((e) => e.kind === 'coil' && e.phase === 'before' && e.grade === 'packed');
      return {
        days: daysBetween(on, dueOn),
        returnDays: packed || events.some((e) => e.kind === 'trip') ? rules.returnWithinDays : null,
        deepClean: decision.deepClean !== null,
      };
    },
    band: (i, day) => {
      const { quantiles: q, ever } = forecast(beliefs[i] as FoulingPosterior, limit, dateOf(day));
      const days = (d: typeof q.p10) => (d === null ? Infinity : daysBetween(dateOf(day), d));
      return { low: days(q.p10), high: days(q.p90), ever };
    },
    daily: (day) => {
      if (!REFITS.has(day)) return;
      hyper = fitHyper(units, base, `day ${day}`);
      beliefs = fleetPosteriors(units, hyper);
    },
  };
}
