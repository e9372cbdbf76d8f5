import 'server-only';
import Papa from 'papaparse';
import { guarded } from '../../../core/fleet-csv';
import { kitchenLabel, travelMinutes, TRAVEL_COLUMNS } from '../../../core/planning';
import type { Tx } from '../../../database/client';
import { namedKitchens, travelBetween } from '../reads/travel';

/**
 * Every pair of the shop's kitchens with the minutes that planning counts on now: imported ones, else worked out from
 * coordinates. Pairs that have neither are left out.
 */
export async function travelTemplate({ db }: { db: Tx }): Promise<string> {
  const kitchens = await namedKitchens(db);
  const { travel, placeOf } = await travelBetween(
    db,
    kitchens.map((k) => k.id),
  );
  const rows = kitchens.flatMap((from) =>
    kitchens.flatMap((to) => {
      const minutes = from === to ? null : travelMinutes(placeOf(from) ?? {}, placeOf(to) ?? {}, travel);
      return minutes === null ? [] : [[guarded(kitchenLabel(from)), guarded(kitchenLabel(to)), String(minutes)]];
    }),
  );
  return `\uFEFF${Papa.unparse([[...TRAVEL_COLUMNS], ...rows], { newline: '\r\n' })}\r\n`;
}
