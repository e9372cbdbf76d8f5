import 'server-only';
import { utcOffsetMinutes } from '../../../core/calendar';
import type { Db } from '../../../database/client';

/**
 * Zones in which the app and the database do not go by the same clock at some time from a year back to two ahead: each carries tables of its
 * own, of its own date. @param zones those to look at; without them, those on file
 */
export async function zonesThatDiffer(db: Db, now: Date, zones?: readonly string[]): Promise<string[]> {
  const asked = zones ?? (await zonesOnFile(db));
  const rows = await db.$queryRaw<{ zone: string; at: Date; minutes: number }[]>`
    SELECT zone, at, (extract(epoch FROM (at AT TIME ZONE zone) - (at AT TIME ZONE 'UTC')) / 60)::int AS minutes
    FROM unnest(${asked}::text[]) AS zone, generate_series(${now}::timestamptz - interval '1 year', ${now}::timestamptz + interval '2 years', '28 days') AS at`;
  return [...new Set(rows.filter((r) => utcOffsetMinutes(r.zone, r.at.getTime()) !== r.minutes).map((r) => r.zone))];
}

async function zonesOnFile(db: Db): Promise<string[]> {
  const rows = await db.$queryRaw<{ zone: string }[]>`
    SELECT "timeZone" AS zone FROM "ShopSettings" UNION SELECT DISTINCT "timeZone" FROM "Kitchen" WHERE "archivedAt" IS NULL`;
  return rows.map((r) => r.zone);
}
