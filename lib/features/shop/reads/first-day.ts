import 'server-only';
import { DISTANCE_NAME, REGIONS } from '../../../core/measures/region';
import { counted } from '../../../core/wording/counted';
import type { Tx } from '../../../database/client';
import { TAKES_VISITS } from '../../people/reads/visiting';
import { weekly } from '../../visits/reads/visits';
import { costsSet, shopSettings } from './settings';

export type FirstDayStep = { key: 'shop' | 'costs' | 'people' | 'fleet' | 'positions' | 'week'; done: boolean; text: string };

/** Steps from an empty shop to its first week; null once a visit was ever booked: then the list is gone for good. */
export async function firstDay(db: Tx): Promise<FirstDayStep[] | null> {
  if (await db.visit.findFirst({ select: { id: true } })) return null;
  const shop = await shopSettings(db);
  const technicians = await db.user.findMany({ where: { active: true, ...TAKES_VISITS } });
  const shiftless = technicians.filter((t) => weekly(t.shifts).length === 0).map((t) => t.name);
  const units = await db.unit.count({ where: { archivedAt: null } });
  const [kitchens, lost] = [
    await db.kitchen.count({ where: { archivedAt: null } }),
    await db.kitchen.count({ where: { archivedAt: null, lat: null } }),
  ];
  return [
    {
      key: 'shop',
      done: shop?.lat != null,
      text: shop?.lat != null ? 'The shop is on the map.' : 'Where the shop stands: rounds start there.',
    },
    {
      key: 'costs',
      done: costsSet(shop) && shop?.energyPricePerKwh != null,
      text: `What an hour, a ${DISTANCE_NAME[REGIONS[shop?.region ?? 'us'].distance]}, a cleaning, a breakdown and a kilowatt-hour cost you.`,
    },
    {
      key: 'people',
      done: technicians.length > 0 && shiftless.length === 0,
      text:
        shiftless.length > 0
          ? `${shiftless.join(', ')}: no shift yet.`
          : 'Technicians with their shifts, and who is licensed for what. Whoever else goes to kitchens, you among them, says so on their own page under People.',
    },
    {
      key: 'fleet',
      done: units > 0,
      text:
        units > 0
          ? `${counted(units, 'unit')} in ${counted(kitchens, 'kitchen')}.`
          : 'Your list of equipment, from any sheet or workbook. Without one: put kitchens on file, and type their units a line each.',
    },
    {
      key: 'positions',
      done: kitchens > 0 && lost === 0,
      text:
        lost > 0 ? `${counted(lost, 'kitchen')} without a position yet; drives there are guessed meanwhile.` : 'Where the kitchens are.',
    },
    { key: 'week', done: false, text: 'Have the first week proposed, look at it, and accept it.' },
  ];
}
