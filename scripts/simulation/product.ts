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

const meanOf = (a: Float64Array): number => a.reduce((sum, x) => sum + x, 0) / a.length;

/** What the invented fleet was drawn from, as far as the model has words for it: what nobody could know better before the first visit. */
function truthOfFleet({ kind, level, scale, technicians }: World): Hyper {
  const fluff = kind.fluff > 1 ? Math.log((44 * kind.fluff + (365.25 - 44) * 0.6) / 365.25) : 0;
  const restore = kind.cleaning === 'uneven' ? 0.725 : meanOf(Float64Array.from(technicians, (t) => t.restore));
  return {
    ...DEFAULT_HYPER,
    lnRate: { ...level, outdoors: level.outdoors + fluff },
    unitSd: 0.38,
    kitchenSd: 0.3,
    diffusion: scale,
    restore: { ...DEFAULT_HYPER.restore, mean: restore, cleaningSd: kind.cleaning === 'uneven' ? 0.16 : 0.04 },
    levelling: { ...DEFAULT_HYPER.levelling, probability: Math.max(0.01, kind.levelling) },
    accelerating: { ...DEFAULT_HYPER.accelerating, probability: Math.max(0.01, kind.accelerating) },
    changePerYear: Math.max(0.01, kind.change.share / 4),
    misread: Math.max(0.005, kind.misread),
  };
}

/** The same with this unit's own rate before any change, and its shape. */
function truthOfUnit(world: World, unit: TrueUnit): Hyper {
  const fleet = truthOfFleet(world);
  const rate = meanOf(unit.increments.subarray(0, world.changes.get(unit.kitchenId) ?? unit.increments.length));
  return {
    ...fleet,
    lnRate: { ...fleet.lnRate, [unit.placement]: Math.log(rate) },
    unitSd: 0.25,
    kitchenSd: 0.02,
    levelling: { ...fleet.levelling, probability: unit.chokesAt < Infinity ? 0.98 : 0.01 },
    accelerating: { ...fleet.accelerating, probability: unit.feed > 0 ? 0.98 : 0.01 },
  };
}

/** Packed finds at no price and under no limit: what hindsight pays for them. */
const PACKED_FREE: ShopPolicy = { ...DEFAULT_POLICY, comebackCost: 0, packedRisk: 1, risk: 1 };
export const TOLD_UNITS = 'the product, told each unit';
export const TOLD_UNITS_FREE = 'the same, packed free';
export const TOLD_FLEET = 'the product, told the fleet';

/** The product's own decision where each unit's rate and shape are told beforehand: nothing is left to learn but changes and luck. */
export function toldUnits(world: World, packedFree: boolean): Policy {
  const told = world.units.map((u) => truthOfUnit(world, u));
  const name = packedFree ? TOLD_UNITS_FREE : TOLD_UNITS;
  return { ...product(world, packedFree ? PACKED_FREE : DEFAULT_POLICY, DEFAULT_HYPER, told), name };
}

/** The same where it starts from what the fleet was drawn from. */
export const toldFleet = (world: World): Policy => ({
  ...product(world, DEFAULT_POLICY, truthOfFleet(world)),
  name: TOLD_FLEET,
});

/** The product's own decision, as a shop with the settings that the program brings would run it. `told`: never fitted, each unit by its own. */
export function product(
  world: World,
  rules: ShopPolicy = DEFAULT_POLICY,
  base: Hyper = DEFAULT_HYPER,
  told?: readonly Hyper[],
): Policy & { first: (i: number) => number } {
  const units = world.units.map((u) => ({
    file: fileOf(u),
    exposure: { placement: u.placement, kitchenId: u.kitchenId },
    history: { startedOn: FIRST_DAY, startedClean: true, events: [] as UnitEvent[] } satisfies UnitHistory,
  }));
  let fitted: Hyper = base;
  const hyperOf = (i: number): Hyper => told?.[i] ?? fitted;
  let beliefs: FoulingPosterior[] = units.map((u, i) => posterior(u.history, u.exposure, hyperOf(i)));
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
      const hyper = hyperOf(i);
      const others = beliefs.filter((b, j) => j !== i && told === undefined && b.exposure.kitchenId === unit.exposure.kitchenId);
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
      if (told || !REFITS.has(day)) return;
      fitted = fitHyper(units, base, `day ${day}`);
      beliefs = fleetPosteriors(units, fitted);
    },
  };
}
