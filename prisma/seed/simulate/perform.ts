import { addDays, instantOf, toDay, type LocalDate } from '../../../lib/core/calendar';
import { isStopped, type Aspect, type Grade } from '../../../lib/core/findings/grades';
import { COIL_CLEANING } from '../../../lib/core/tasks';
import { kelvinToFahrenheit } from '../../../lib/core/measures';
import type { VisitEventKind } from '../../../lib/core/visits/events';
import { findingRow, readingRow, visitRow, visitTaskRow } from '../rows';
import { CITY } from '../shop/kitchens';
import { airAtCoil } from './air';
import { takeReading } from './measure';
import type { SimKitchen, SimUnit, Technician, World } from './world';
import type { Booking } from './dispatch';

const MINUTE = 60_000;
const REASONS = ['Cold-room door blocked by a delivery.', 'Unit full of stock, chef asked to come back.', 'No key for the cage.'] as const;

/** Writes a booking: the visit and its tasks, open unless it was carried out. */
export function writeVisit(
  world: World,
  { kitchen, technician, date, from, minutes, units }: Booking,
  status: 'booked' | 'done' | 'cancelled',
  cancelReason = '',
): string {
  const { random, out } = world;
  const startsAt = new Date(instantOf(date, from, CITY.timeZone));
  const id = random.uuid();
  // Nothing on file was done in the future: what lies ahead was booked yesterday at the latest.
  const yesterday = instantOf(addDays(world.today, -1), '16:00', CITY.timeZone);
  const bookedAt = new Date(Math.min(startsAt.getTime() - random.whole(2, 6) * 86_400_000, yesterday));
  const done = status === 'done';
  const leftAt = new Date(startsAt.getTime() + (minutes - random.whole(0, 12)) * MINUTE);
  out.visits.push(
    visitRow(kitchen.place.kitchen.id as string, technician.row.id as string, startsAt, minutes, {
      id,
      status,
      createdById: world.desk,
      createdAt: bookedAt,
      ...(done
        ? {
            arrivedAt: new Date(startsAt.getTime() + random.whole(-3, 9) * MINUTE),
            leftAt,
            closedAt: leftAt,
            signedBy: kitchen.place.seed.contact[0],
            version: 3,
          }
        : {}),
      ...(status === 'cancelled' ? { cancelReason, version: 2, sequence: 1 } : {}),
    }),
  );
  const event = (kind: VisitEventKind, at: Date, byUserId: string, reason = '') =>
    out.visitEvents.push({ id: random.uuid(), visitId: id, kind, at, byUserId, reason });
  event('booked', bookedAt, world.desk);
  if (status === 'cancelled') event('cancelled', new Date(startsAt.getTime() - random.whole(3, 30) * 3600_000), world.desk, cancelReason);
  if (done) {
    event('started', startsAt, technician.row.id as string);
    event('closed', leftAt, technician.row.id as string);
  }
  for (const { unit, tasks } of units)
    for (const task of tasks)
      out.visitTasks.push(
        visitTaskRow(id, task, {
          id: random.uuid(),
          unitId: unit.row.id as string,
          open: status === 'booked',
          outcome: done ? 'done' : 'planned',
        }),
      );
  return id;
}

export type Seen = { unit: SimUnit; visitId: string; date: LocalDate; at: Date; cleaned: boolean; reached: boolean };

/** Carries one booking out: looks, measures, cleans, writes down. Returns what was done to each unit. */
export function perform(world: World, booking: Booking): Seen[] {
  const visitId = writeVisit(world, booking, 'done');
  const start = instantOf(booking.date, booking.from, CITY.timeZone);
  let at = start + 4 * MINUTE;
  return booking.units.map(({ unit, tasks }) => {
    const cleaned = tasks.some((t) => t.kindKey === COIL_CLEANING);
    const seen = { unit, visitId, date: booking.date, at: new Date(at), cleaned, reached: !unit.random.chance(0.025) };
    if (seen.reached) attend(world, booking.kitchen, booking.technician, seen);
    else giveUp(world, seen);
    at += (cleaned ? 24 : 9) * MINUTE;
    return seen;
  });
}

function giveUp(world: World, { unit, visitId, at }: Seen): void {
  const reason = unit.random.pick(REASONS);
  world.out.unitVisits.push({ id: unit.random.uuid(), visitId, unitId: unit.row.id as string, outcome: 'could_not_reach', reason, at });
  for (const vt of world.out.visitTasks)
    if (vt.visitId === visitId && vt.unitId === unit.row.id) Object.assign(vt, { outcome: 'not_done', reason });
}

function attend(world: World, kitchen: SimKitchen, technician: Technician, seen: Seen): void {
  const { unit, visitId, date, at, cleaned } = seen;
  const { out } = world;
  const { state, random } = unit;
  const unitId = unit.row.id as string;
  const by = technician.row.id as string;
  state.advance(toDay(date));
  unit.recallDay = null;
  resolve(world, unit, seen);
  out.unitVisits.push({ id: random.uuid(), visitId, unitId, outcome: 'seen', at });
  const find = (aspect: Aspect, grade: Grade, phase: 'found' | 'left', minutes: number) =>
    out.findings.push(
      findingRow(visitId, unitId, aspect, grade, new Date(at.getTime() + minutes * MINUTE), { id: random.uuid(), phase, byUserId: by }),
    );

  const freezer = unit.row.application === 'low';
  const lowSide = unit.row.kind !== 'remote_condensing_unit';
  const drain = lowSide ? state.drainGrade(freezer) : 'runs';
  const ice = lowSide ? state.iceGrade(freezer) : 'dry';
  find('coil', state.coilGrade(), 'found', 2);
  find('condenser_fan', state.fanDead ? 'failed' : random.chance(0.04) ? 'worn' : 'sound', 'found', 2);
  find('ice', ice, 'found', 5);
  find('drain', drain, 'found', 5);
  if (lowSide) find('gasket', state.gasketGrade(), 'found', 6);
  if (drain !== 'runs') {
    state.clearDrain();
    find('drain', 'runs', 'left', 15);
  }
  if (ice !== 'dry' && ice !== 'even_frost') find('ice', 'dry', 'left', 18);
  if (lowSide && state.gasketGrade() === 'failed') ask(world, unit, seen, by, 'Replace door gasket', 'Torn; box sweats at the hinge side.');
  if (state.fanDead)
    ask(
      world,
      unit,
      seen,
      by,
      'Replace condenser fan motor',
      'Does not turn. Left running on natural draught; told the kitchen to keep the grille clear.',
    );

  const warm = isStopped('ice', ice) ? random.between(3, 7) : 0;
  const dayOfYear = at.getUTCMonth() * 30.4 + at.getUTCDate();
  const air = airAtCoil(unit.core.placement, kitchen.place.kitchen.hotDayAirK as number, dayOfYear, random);
  const surroundings = { airK: air, boxK: unit.core.boxSetPointK + random.normal(0.4, 0.7) + warm };
  const measures = cleaned && !random.chance(unit.row.circuitAccess === 'ports' ? 0.06 : 0.22);
  const read = (phase: 'before' | 'after', minutes: number) => {
    const taken = unit.model && takeReading(unit.core, unit.model, state.lnKFall, surroundings, technician.van, random);
    if (!taken) return null;
    const { gauge } = technician.van;
    out.readings.push(
      readingRow(unitId, new Date(at.getTime() + minutes * MINUTE), {
        id: random.uuid(),
        visitId,
        phase,
        ...taken.values,
        entered: taken.entered,
        byUserId: by,
        gaugeGrade: taken.values.headPaGauge === undefined ? null : gauge.grade,
        gaugeSpanPa: taken.values.headPaGauge === undefined ? null : gauge.spanPa,
      }),
    );
    return taken;
  };
  const before = measures ? read('before', 4) : null;
  const cutout = unit.core.cutoutPaGauge;
  if (before && cutout !== undefined && before.headTrulyPaGauge > 0.94 * cutout)
    out.unitEvents.push({
      id: random.uuid(),
      unitId,
      visitId,
      kind: 'high_pressure_trip',
      at: new Date(at.getTime() - 5 * 3600_000),
      note: 'Kitchen says it stopped and was reset.',
      byUserId: by,
    });
  if (warm > 0 && !freezer)
    out.foodWarnings.push({
      id: random.uuid(),
      visitId,
      unitId,
      boxK: surroundings.boxK,
      toldTo: kitchen.place.seed.contact[0],
      toldAt: at,
      note: `Box at ${Math.round(kelvinToFahrenheit(surroundings.boxK))} °F; told to move the food and check it.`,
    });
  if (!cleaned) return;
  state.clean();
  const left = state.coilGrade();
  find('coil', left, 'left', 20);
  if (isStopped('coil', left))
    ask(world, unit, seen, by, 'Quote a new condenser coil', 'Cleaned twice and still matted: fins are eaten and folded over.');
  if (measures) read('after', 22);
}

/** Work that a finding calls for, once while it is open. */
function ask(world: World, unit: SimUnit, { visitId, at }: Seen, by: string, what: string, note: string): void {
  const unitId = unit.row.id as string;
  if (world.out.jobs.some((j) => j.unitId === unitId && j.what === what && !j.closedAt)) return;
  world.out.jobs.push({
    id: unit.random.uuid(),
    unitId,
    foundVisitId: visitId,
    what,
    note,
    needsQuote: true,
    createdById: by,
    createdAt: at,
    again: [],
  });
}

/** Coming back brings the gasket along; quotes that the kitchen has not answered stand, and what rules sent back for is settled by what is found. */
function resolve(world: World, unit: SimUnit, { visitId, at }: Seen): void {
  for (const f of world.out.jobs) {
    if (f.unitId !== unit.row.id || f.closedAt || f.what !== 'Replace door gasket') continue;
    Object.assign(f, { state: 'done', closedAt: at });
    unit.state.gasketWorn = 0;
    world.out.parts.push({
      id: unit.random.uuid(),
      visitId,
      unitId: f.unitId,
      what: `Door gasket for ${unit.row.make} ${unit.row.model}`,
      quantity: 1,
      at,
    });
  }
}
