import 'server-only';
import { isWeekday } from '../../../core/calendar';
import { unitValues } from '../../../core/equipment/unit-fields';
import { fold, kitchenKey, type KnownUnit, type KitchenValues, type OnFile, type TaskKindInfo } from '../../../core/fleet-csv';
import type { Tx } from '../../../database/client';
import { weekly } from '../../visits/reads/visits';

export type KitchenRow = Omit<KitchenValues, 'serviceHours' | 'preferredWeekday'> & {
  serviceHours: unknown;
  preferredWeekday: number | null;
};

export const kitchenValues = (k: KitchenRow): KitchenValues => ({
  address: k.address, timeZone: k.timeZone, altitudeM: k.altitudeM, lat: k.lat, lng: k.lng, serviceHours: weekly(k.serviceHours), accessNotes: k.accessNotes,
  contactName: k.contactName, contactPhone: k.contactPhone, contactEmail: k.contactEmail, energyPricePerKwh: k.energyPricePerKwh, hotDayAirK: k.hotDayAirK,
  preferredWeekday: isWeekday(k.preferredWeekday) ? k.preferredWeekday : null,
}); // prettier-ignore

/** What an import must know of what is on file: names, tags, and the kitchens' own fields. */
export async function fleetOnFile(db: Tx): Promise<OnFile> {
  // One after the other: inside a transaction there is one connection.
  const customers = await db.customer.findMany({ select: { id: true, name: true, archivedAt: true } });
  const kitchens = await db.kitchen.findMany({ include: { customer: { select: { name: true } } } });
  const units = await db.unit.findMany({ select: { kitchenId: true, name: true, tag: true, archivedAt: true } });
  const namesIn = new Map<string, Set<string>>();
  for (const u of units) {
    if (u.archivedAt) continue;
    const names = namesIn.get(u.kitchenId) ?? new Set();
    namesIn.set(u.kitchenId, names.add(fold(u.name)));
  }
  return {
    customers: new Map(customers.map((c) => [fold(c.name), { id: c.id, archived: c.archivedAt !== null }])),
    kitchens: new Map(
      kitchens.map((k) => [
        kitchenKey(k.customer.name, k.name),
        {
          id: k.id,
          version: k.version,
          archived: k.archivedAt !== null,
          values: kitchenValues(k),
          placedByHand: k.positionFrom === 'hand',
          units: namesIn.get(k.id) ?? new Set<string>(),
        },
      ]),
    ),
    tags: new Set(units.map((u) => u.tag.toUpperCase())),
  };
}

/** Every unit on file, as a sheet may be about it. */
export async function knownUnitsOnFile(db: Tx): Promise<KnownUnit[]> {
  const units = await db.unit.findMany({
    where: { archivedAt: null, kitchen: { archivedAt: null } },
    include: { kitchen: { select: { name: true, customer: { select: { name: true } } } } },
  });
  return units.map((u) => ({
    id: u.id,
    version: u.version,
    customer: u.kitchen.customer.name,
    kitchen: u.kitchen.name,
    values: unitValues(u),
  }));
}

/** Kinds of task that a file has columns for. */
export const fleetTaskKinds = (db: Tx): Promise<TaskKindInfo[]> =>
  db.taskKind.findMany({
    where: { active: true },
    orderBy: [{ sort: 'asc' }, { key: 'asc' }],
    select: { key: true, label: true, defaultWeeks: true, minWeeks: true, maxWeeks: true },
  });
