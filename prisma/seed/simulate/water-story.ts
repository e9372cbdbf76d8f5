import { instantOf, nextDue, toDay, todayIn, weeksRule, type LocalDate } from '../../../lib/core/calendar';
import { condenserUnitOf, conditionsOf } from '../../../lib/core/condenser/from-record';
import { estimateVisit, type UnitFile } from '../../../lib/core/evidence';
import { seenAt } from '../../../lib/core/findings/seen';
import type { Aspect, Grade } from '../../../lib/core/findings/grades';
import { atmosphereAt, fahrenheitToKelvin, pascalToPsi, psiToPascal } from '../../../lib/core/measures';
import { RandomStream } from '../../../lib/core/numerics/random';
import { bubblePressure, unwrap } from '../../../lib/core/refrigerants';
import { kindInfo, usualTasks } from '../../../lib/core/tasks/kinds';
import { STORED_ESTIMATE } from '../../../lib/database/stored/estimate';
import type { Prisma } from '../../../lib/database/generated/client';
import { findingRow, readingRow, taskRow, unitRow, visitTaskRow } from '../rows';
import { shopSettings } from '../shop/assemble';
import { CITY } from '../shop/kitchens';
import type { World } from './world';

const KITCHEN = 'Banquets and bar';
const REFRIGERANT = 'R404A';
const LONG_VISIT = 45 * 60_000;
/** Scale grows by so much a day, on a scale where 1 is a crust; and what it adds to condensing over the water leaving, °F. */
const SCALE_PER_DAY = 0.0045;
const APPROACH_F = 7;
const APPROACH_OF_SCALE_F = 4;

export type WaterStory = {
  unit: Prisma.UnitCreateManyInput;
  tasks: Prisma.TaskCreateManyInput[];
  estimates: Prisma.EstimateCreateManyInput[];
};

const asDate = (d: LocalDate) => new Date(`${d}T00:00:00Z`);
const localOf = (d: unknown) => (d as Date).toISOString().slice(0, 10) as LocalDate;

function setDue(task: Prisma.TaskCreateManyInput): void {
  const lastDoneOn = task.lastDoneOn ? localOf(task.lastDoneOn) : null;
  const due = nextDue({ rule: task.rule, anchor: 'last_completed', anchorDate: localOf(task.anchorDate), lastDoneOn });
  if (due) task.dueOn = asDate(due);
}

/**
 * The one unit of the shop whose condenser is cooled by water: an ice machine that came on file with the rest and is looked
 * at on the visits its kitchen had anyway. Nothing is learned from a water side, so no rule of its own moves.
 */
export function waterStory(world: World): WaterStory {
  const kitchen = world.kitchens.find((k) => k.place.seed.name === KITCHEN);
  if (!kitchen) throw new Error(`No ${KITCHEN}.`);
  const random = new RandomStream(world.seed, 'water story');
  const place = kitchen.place.kitchen;
  const kitchenId = String(place.id);
  const createdAt = new Date(instantOf(world.start, '12:00', CITY.timeZone));
  const unit = unitRow(kitchenId, {
    id: random.uuid(), tag: 'L10-90', name: 'Cellar ice machine', kind: 'ice_machine', placement: 'back_of_house', make: 'Halden', model: 'HA-64W', serial: '40718852',
    refrigerant: REFRIGERANT, chargeKg: 0.91, application: 'low', expansion: 'valve', circuitAccess: 'ports', condenserKind: 'water_cooled',
    cutoutPaGauge: psiToPascal(425), boxSetK: 272.15, headControl: true, notes: 'City water; its valve is behind the left panel.', createdAt,
  }); // prettier-ignore
  const tasks = usualTasks({ kind: 'ice_machine', condenserKind: 'water_cooled' }).map((kindKey) => {
    const info = kindInfo(kindKey);
    const task = taskRow(
      { id: String(unit.id), kitchenId },
      {
        id: random.uuid(), kindKey, rule: weeksRule(info?.defaultWeeks ?? 26), anchorDate: asDate(world.start), minWeeks: info?.minWeeks, maxWeeks: info?.maxWeeks,
        locked: true, createdAt,
      },
    ); // prettier-ignore
    setDue(task);
    return task;
  });
  const estimates = liveThrough(world, kitchenId, { unit, tasks, place, random });
  return { unit, tasks, estimates };
}

type Machine = {
  unit: Prisma.UnitCreateManyInput;
  tasks: Prisma.TaskCreateManyInput[];
  place: Prisma.KitchenCreateManyInput;
  random: RandomStream;
};

/** Goes along on each visit on which something of it is due; what is due at the end is on the next one booked. */
function liveThrough(world: World, kitchenId: string, machine: Machine): Prisma.EstimateCreateManyInput[] {
  const { unit, tasks, place, random } = machine;
  const unitId = String(unit.id);
  const core = condenserUnitOf(unit, place);
  let file: UnitFile = {
    unitId, kitchenId, unit: core, conditions: conditionsOf(core, place, shopSettings.currency), startedOn: world.start,
    cleanings: [], findings: [], readings: [], trips: [], washed: [], changes: [],
  }; // prettier-ignore
  const estimates: Prisma.EstimateCreateManyInput[] = [];
  let descaled = toDay(world.start);
  const visits = world.out.visits.filter((v) => v.kitchenId === kitchenId).sort((a, b) => +new Date(a.startsAt) - +new Date(b.startsAt));
  for (const v of visits) {
    const visitId = String(v.id);
    const date = todayIn(CITY.timeZone, +new Date(v.startsAt));
    const done = v.status === 'done';
    const [from, to] = [+new Date(v.arrivedAt ?? v.startsAt), +new Date(v.leftAt ?? v.endsAt)];
    // It descales by itself while the rest is worked on, but not in half an hour.
    const long = to - from >= LONG_VISIT;
    const due = tasks.filter(
      (t) => toDay(localOf(t.dueOn)) <= toDay(date) + (done ? 16 : 45) && (long || t.kindKey === 'drain_inspection'),
    );
    if (due.length === 0 || v.status === 'cancelled') continue;
    for (const t of due)
      world.out.visitTasks.push(
        visitTaskRow(visitId, { id: t.id, unitId }, { id: random.uuid(), open: !done, outcome: done ? 'done' : 'planned' }),
      );
    // One visit ahead holds a task; a second would book it twice.
    if (!done) break;
    const at = (minutes: number) => new Date(from + ((to - from) * minutes) / 40);
    const find = (aspect: Aspect, grade: Grade, phase: 'found' | 'left', minutes: number) =>
      world.out.findings.push(
        findingRow(visitId, unitId, aspect, grade, at(minutes), { id: random.uuid(), phase, byUserId: v.technicianId }),
      );
    const scale = SCALE_PER_DAY * (toDay(date) - descaled) * random.between(0.8, 1.2);
    world.out.unitVisits.push({ id: random.uuid(), visitId, unitId, outcome: 'seen', at: at(0) });
    find('scale', scale > 0.8 ? 'crusted' : scale > 0.3 ? 'filmed' : 'clean', 'found', 4);
    find('float', random.chance(0.1) ? 'worn' : 'sound', 'found', 5);
    find('drain', random.chance(0.1) ? 'slow' : 'runs', 'found', 6);
    const waterInF = Math.round(random.between(52, 66));
    const read = (phase: 'before' | 'after', deposit: number, minutes: number) => {
      const { values, entered } = readWater(waterInF, scaledApproach(deposit), place.altitudeM ?? 0, random);
      const row = readingRow(unitId, at(minutes), { id: random.uuid(), visitId, phase, ...values, entered, byUserId: v.technicianId });
      world.out.readings.push(row);
      const made = estimateVisit(
        [file],
        [
          {
            readingId: String(row.id),
            unitId,
            at: +at(minutes),
            phase,
            record: { ...row, at: at(minutes), phase },
            seen: seenAt([], phase),
          },
        ],
        date,
      );
      for (const { readingId, at, columns, result } of made.estimates)
        estimates.push({ id: random.uuid(), readingId, unitId, at: new Date(at), ...columns, result: STORED_ESTIMATE.write(result) });
      file = made.files[0] ?? file;
    };
    read('before', scale, 8);
    if (due.some((t) => t.kindKey === 'ice_machine_cleaning' || t.kindKey === 'water_side_check')) {
      find('scale', 'clean', 'left', 34);
      descaled = toDay(date);
      read('after', 0, 38);
    }
    for (const t of due) {
      t.lastDoneOn = asDate(date);
      setDue(t);
    }
  }
  return estimates;
}

const scaledApproach = (deposit: number) => APPROACH_F + APPROACH_OF_SCALE_F * Math.min(2.5, deposit);

/** City water in and out, and the head that its valve holds, as typed. */
function readWater(waterIn: number, approachF: number, altitudeM: number, random: RandomStream) {
  const condensingF = random.normal(101, 0.8);
  const waterOut = Math.round(condensingF - approachF);
  const head = unwrap(bubblePressure(REFRIGERANT, fahrenheitToKelvin(condensingF))) - atmosphereAt(altitudeM);
  const psi = Math.round(pascalToPsi(head));
  const harvest = Math.round((2.2 + approachF / 20 + random.normal(0, 0.15)) * 10) / 10;
  return {
    values: {
      headPaGauge: psiToPascal(psi), waterInK: fahrenheitToKelvin(waterIn), waterOutK: fahrenheitToKelvin(waterOut), harvestMinutes: harvest,
      steadyMinutes: random.whole(12, 20),
    },
    entered: {
      headPaGauge: { value: psi, unit: 'psig' }, waterInK: { value: waterIn, unit: '°F' }, waterOutK: { value: waterOut, unit: '°F' },
      harvestMinutes: { value: harvest, unit: 'min' },
    },
  }; // prettier-ignore
}
