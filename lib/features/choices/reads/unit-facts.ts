import 'server-only';
import { daysBetween, todayIn, type LocalDate } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { meanMinutes, type Happened, type ShopCosts, type TypedFigures, type UnitFacts } from '../../../core/choices';
import { extraKwh } from '../../../core/evidence';
import { COIL_CLEANING } from '../../../core/tasks';
import { keysOf } from '../../../core/typed/closed-set';
import type { Tx } from '../../../database/client';
import { STORED_CHOICE } from '../../../database/stored/choices';
import { coilBelief } from '../../evidence/reads/evidence';
import { shopFacts } from '../../evidence/reads/fouling';
import { leaksOfUnit } from '../../refrigerant-book/reads/leaks';
import { timeAtVisits } from '../../visits/reads/time-on-units';
import { costsOf, shopSettings } from '../../shop/reads/settings';

/** What counts is at most so long ago: machines and kitchens change. Judgement. */
const YEARS = 3;
const DAY = 86_400_000;
/** A band so wide for what deposit costs, beside the belief's own: size, hours and equations, as elsewhere. */
const ENERGY_SHARE = 0.5;

type Span = { gte: Date; lte: Date };

/** Days on which one of these units failed: it tripped, its compressor went, or its box was too warm for food. */
async function failures(db: Tx, units: ReadonlySet<string>, at: Span, one?: string): Promise<number> {
  const where = one === undefined ? {} : { unitId: one };
  const events = await db.unitEvent.findMany({
    where: { ...where, at, kind: { in: ['high_pressure_trip', 'compressor_replaced'] } },
    select: { unitId: true, at: true },
  });
  const warm = await db.foodWarning.findMany({ where: { ...where, toldAt: at }, select: { unitId: true, toldAt: true } });
  const days = [...events, ...warm.map((w) => ({ unitId: w.unitId, at: w.toldAt }))].flatMap((e) =>
    units.has(e.unitId) ? [`${e.unitId} ${Math.floor(e.at.getTime() / DAY)}`] : [],
  );
  return new Set(days).size;
}

const calls = (db: Tx, unit: { id: string } | { archivedAt: null }, createdAt: Span): Promise<number> =>
  db.job.count({ where: { source: 'call', createdAt, units: { some: { unit } } } });

/** Null where the unit is not in service. */
export async function unitFacts(db: Tx, unitId: string, now: Date): Promise<UnitFacts | null> {
  const unit = await db.unit.findUnique({ where: { id: unitId }, include: { kitchen: true } });
  if (!unit || unit.archivedAt) return null;
  const today = todayIn(unit.kitchen.timeZone, now.getTime());
  const oldest = new Date(now.getTime() - YEARS * 365 * DAY);
  const since = unit.createdAt > oldest ? unit.createdAt : oldest;
  const span = { gte: since, lte: now };
  const years = Math.max(0.25, (now.getTime() - since.getTime()) / (365 * DAY));
  const over = (times: number): Happened => ({ times, years });
  const fleetUnits = await db.unit.findMany({ where: { archivedAt: null }, select: { id: true, createdAt: true } });
  const inService = new Set(fleetUnits.map((u) => u.id));
  const fleetYears = Math.max(
    1,
    fleetUnits.reduce((sum, u) => sum + (now.getTime() - Math.max(u.createdAt.getTime(), oldest.getTime())) / (365 * DAY), 0),
  );
  const cleanings = await db.visitTask.count({
    where: { unitId, outcome: 'done', task: { kindKey: COIL_CLEANING }, visit: { status: 'done', startsAt: span } },
  });
  const leaks = await leaksOfUnit(db, unitId, today);
  const added = (leaks?.additions ?? [])
    .filter((a) => a.on <= today && daysBetween(a.on, today) <= years * 365)
    .reduce((sum, a) => sum + a.kg, 0);
  return {
    cleanings: over(cleanings),
    callOuts: over(await calls(db, { id: unitId }, span)),
    failures: over(await failures(db, inService, span, unitId)),
    // Of units in service, as the years are.
    fleet: {
      callOuts: { times: await calls(db, { archivedAt: null }, { gte: oldest, lte: now }), years: fleetYears },
      failures: { times: await failures(db, inService, { gte: oldest, lte: now }), years: fleetYears },
    },
    leakKgPerYear: added / years,
    cleaningMinutes: await cleaningTimes(db, unitId, span),
    fouling: await foulingOf(db, unitId, cleanings / years),
  };
}

/** Cleanings whose time is looked at, the latest. */
const LATEST = 12;

/** Minutes that cleaning its coil took, at visits that did no work on a job or a circuit there. */
async function cleaningTimes(db: Tx, unitId: string, startsAt: Span): Promise<UnitFacts['cleaningMinutes']> {
  const visits = await db.visit.findMany({
    where: {
      status: 'done',
      startsAt,
      arrivedAt: { not: null },
      leftAt: { not: null },
      tasks: { some: { unitId, outcome: 'done', task: { kindKey: COIL_CLEANING } } },
      jobOutcomes: { none: { job: { units: { some: { unitId } } } } },
      sealedSteps: { none: { unitId } },
    },
    orderBy: { startsAt: 'desc' },
    take: LATEST,
    select: {
      id: true,
      tasks: {
        where: { unitId, outcome: 'done', task: { kindKey: { not: COIL_CLEANING } } },
        select: { task: { select: { kind: { select: { minutes: true } } } } },
      },
    },
  });
  const times = await timeAtVisits(
    db,
    visits.map((v) => v.id),
  );
  return meanMinutes(
    visits.flatMap((v) => {
      const spent = times.get(v.id)?.get(unitId);
      // What else was done there took the time that is planned for it.
      const others = v.tasks.reduce((sum, t) => sum + t.task.kind.minutes, 0);
      const less = (minutes: number) => Math.max(0, minutes - others);
      return spent ? [{ minutes: less(spent.minutes), lo: less(spent.lo), hi: less(spent.hi) }] : [];
    }),
  );
}

/** What deposit costs a year: what no cleaning takes off, and half of what grows between two, on the unit's own curve. */
async function foulingOf(db: Tx, unitId: string, cleaningsPerYear: number): Promise<UnitFacts['fouling']> {
  const [unit, shop] = await Promise.all([db.unit.findUniqueOrThrow({ where: { id: unitId }, include: { kitchen: true } }), shopFacts(db)]);
  const found = await coilBelief(db, unit, shop);
  const own = found?.own;
  if (!found || !own || own.kwhPerDay.length < 2) return null;
  const { rate, lnK, lastCleanedOn, asOf } = found.belief.fouling;
  const grows = Math.max(0, rate.mean) * (365 / Math.max(1, cleaningsPerYear)) * 0.5;
  const since = lastCleanedOn === null ? 0 : Math.max(0, daysBetween(lastCleanedOn, asOf));
  const stays = Math.max(0, -lnK.mean - Math.max(0, rate.mean) * since);
  const kwh = (y: number, sd: number) => {
    const at = (x: number) => 365 * extraKwh(own, Math.max(0, x));
    const value = at(y);
    return {
      value,
      lo: Math.min(value, at(y - 1.28 * sd) / (1 + ENERGY_SHARE)),
      hi: Math.max(value, at(y + 1.28 * sd) * (1 + ENERGY_SHARE)),
    };
  };
  return { now: kwh(stays + grows, lnK.sd), clean: kwh(grows, 0.3 * grows) };
}

const PRICES = { energyPerKwh: 'a kilowatt-hour', cleaning: 'a coil cleaning', failure: 'a breakdown' } as const;

/** What the shop says things cost; null where it has not said all of it, and what it lacks. */
export async function shopCosts(db: Tx, unitId: string): Promise<{ costs: ShopCosts | null; currency: string; lacks: string[] }> {
  const shop = await shopSettings(db);
  const said = shop && costsOf(shop);
  const unit = await db.unit.findUnique({ where: { id: unitId }, select: { kitchen: { select: { energyPricePerKwh: true } } } });
  const prices = {
    energyPerKwh: unit?.kitchen.energyPricePerKwh ?? said?.energyPricePerKwh ?? null,
    cleaning: said?.cleaningCost ?? null,
    failure: said?.failureCost ?? null,
  };
  const lacks = keysOf(PRICES).filter((key) => prices[key] === null);
  const time = await timePriced(db, said?.labourPerHour);
  const costs = wholeCosts(prices);
  return { costs: costs && { ...costs, ...time }, currency: shop?.currency ?? 'USD', lacks: lacks.map((key) => PRICES[key]) };
}

/** What an hour costs, and the minutes that a cleaning is planned at. */
async function timePriced(db: Tx, hour: number | null = null): Promise<Pick<ShopCosts, 'hour' | 'plannedMinutes'>> {
  const kind = await db.taskKind.findUnique({ where: { key: COIL_CLEANING }, select: { minutes: true } });
  return { hour, plannedMinutes: kind?.minutes };
}

function wholeCosts({ energyPerKwh, cleaning, failure }: Record<keyof typeof PRICES, number | null>): ShopCosts | null {
  return energyPerKwh !== null && cleaning !== null && failure !== null ? { energyPerKwh, cleaning, failure } : null;
}

/** What was typed at the shop's last decision: its lives, prices and interest are the shop's own, and need not be typed again. */
export async function lastFigures(db: Tx): Promise<{ at: Date; typed: TypedFigures } | null> {
  const row = await db.unitChoice.findFirst({ orderBy: { at: 'desc' }, select: { at: true, figures: true } });
  return row && { at: row.at, typed: STORED_CHOICE.read(row.figures).typed };
}

/** What was decided about a unit, the latest first. */
export async function choicesOf(db: Tx, unitId: string) {
  const rows = await db.unitChoice.findMany({ where: { unitId }, orderBy: { at: 'desc' } });
  const people = await db.user.findMany({
    where: { id: { in: rows.flatMap((r) => [r.byUserId, r.lookedById ?? r.byUserId]) } },
    select: { id: true, name: true },
  });
  const name = (id: string | null) => people.find((p) => p.id === id)?.name ?? '';
  return rows.map((r) => ({
    id: r.id, way: r.way, reason: r.reason, at: r.at, by: name(r.byUserId), lookAgainOn: toLocalDate(r.lookAgainOn),
    lookedAt: r.lookedAt, lookedNote: r.lookedNote, lookedBy: name(r.lookedById),
  })); // prettier-ignore
}

/** Decisions of a year ago that nobody has looked at again. */
export async function toLookAtAgain(db: Tx, today: LocalDate) {
  const rows = await db.unitChoice.findMany({
    where: { lookedAt: null, lookAgainOn: { lte: new Date(`${today}T00:00:00Z`) } },
    include: { unit: { select: { id: true, name: true, kitchen: { select: { name: true, customer: { select: { name: true } } } } } } },
    orderBy: { lookAgainOn: 'asc' },
    take: 20,
  });
  return rows.map((r) => ({ id: r.id, way: r.way, unit: r.unit, lookAgainOn: toLocalDate(r.lookAgainOn) }));
}
