import 'server-only';
import { priced } from '../../shop/reads/energy-price';
import { todayIn, type LocalDate } from '../../../core/calendar';
import { condenserUnitOf, conditionsOf, type UnitRecord } from '../../../core/condenser/from-record';
import type { UnitFile } from '../../../core/evidence';
import type { UnitEventKind } from '../../../core/entries/entries';
import type { TripCause } from '../../../core/findings/trip-causes';
import type { Tx } from '../../../database/client';
import { shopFacts, type ShopFacts } from './fouling';
import { readingFactOf, recordsOf, type RecordsAsked } from './unit-records';

/** A visit's date is the day the technician came, in the kitchen's own zone. */
export const visitDate = (v: { arrivedAt: Date | null; startsAt: Date }, timeZone: string): LocalDate =>
  todayIn(timeZone, (v.arrivedAt ?? v.startsAt).getTime());

type Which = { kitchenId: string } | { kitchenIds: readonly string[] } | { unitIds: readonly string[] };

type More = {
  /** A visit that counts although it is not closed yet. */
  withVisit?: string;
  /** A visit whose readings are left out, to be estimated anew. */
  withoutReadings?: string;
  /** Units wanted although they were archived. */
  evenArchived?: readonly string[];
  /** Only what a belief about the coil rests on: no findings of drains, ice and the like. */
  coilOnly?: boolean;
};

/**
 * What lies on file about units still in service: of closed visits, without superseded entries.
 */
export async function unitFiles(db: Tx, which: Which, more: More = {}): Promise<UnitFile[]> {
  const { withVisit, withoutReadings, evenArchived = [], coilOnly } = more;
  const where =
    'kitchenId' in which
      ? { kitchenId: which.kitchenId }
      : 'kitchenIds' in which
        ? { kitchenId: { in: [...which.kitchenIds] } }
        : { id: { in: [...which.unitIds] } };
  const units = await db.unit.findMany({
    where: { ...where, OR: [{ archivedAt: null }, { id: { in: [...evenArchived] } }] },
    include: { kitchen: { select: { timeZone: true, altitudeM: true, hotDayAirK: true, energyPricePerKwh: true } } },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  if (units.length === 0) return [];
  return filesOf(db, units, await shopFacts(db), { withVisit, withoutReadings, coilOnly });
}

/** A unit as it stands in the database, with what of its kitchen its coil is judged by. */
export type UnitOnFile = UnitRecord & {
  id: string;
  kitchenId: string;
  createdAt: Date;
  archivedAt: Date | null;
  kitchen: { timeZone: string; altitudeM: number; hotDayAirK: number; energyPricePerKwh: number | null };
};

/** The same of units that are at hand. */
export async function filesOf(db: Tx, units: readonly UnitOnFile[], shop: ShopFacts, more: RecordsAsked = {}): Promise<UnitFile[]> {
  const rows = await recordsOf(
    db,
    units.map((u) => u.id),
    more,
  );
  return units.map((u): UnitFile => {
    const unit = condenserUnitOf(u, u.kitchen);
    const { cleanings = [], events = [], findings = [], facts = [], lookedFrom } = rows.get(u.id) ?? {};
    const madeOn = todayIn(u.kitchen.timeZone, u.createdAt.getTime());
    const dates = (kind: UnitEventKind) => events.filter((e) => e.kind === kind).map((e) => e.on);
    return {
      unitId: u.id,
      kitchenId: u.kitchenId,
      unit,
      conditions: conditionsOf(unit, priced(u.kitchen, shop), shop.currency),
      startedOn: lookedFrom && lookedFrom < madeOn ? lookedFrom : madeOn,
      cleanings,
      findings,
      trips: tripsOf(events),
      washed: [...new Set(dates('washed_through'))].sort(),
      changes: [
        ...dates('fouls_more').map((day) => ({ on: day, said: 'more' as const })),
        ...dates('fouls_less').map((day) => ({ on: day, said: 'less' as const })),
      ],
      readings: facts.map(readingFactOf),
    };
  });
}

/** One trip a day, as they come in time; a cause that somebody found stands over none. */
function tripsOf(happened: readonly { kind: UnitEventKind; on: LocalDate; cause: TripCause | null }[]): UnitFile['trips'] {
  const byDay = new Map<LocalDate, TripCause | null>();
  for (const e of happened) if (e.kind === 'high_pressure_trip') byDay.set(e.on, e.cause ?? byDay.get(e.on) ?? null);
  return [...byDay].map(([on, cause]) => ({ on, cause }));
}
