import 'server-only';
import { Prisma, type Db } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { sumsByDay } from '../reads/foresight-sums';

/** So many days in one transaction. */
const DAYS_AT_ONCE = 31;

/**
 * Sums up anew the days that are marked, oldest first. The marks are read before the looks: whoever writes a look after that has left a mark
 * that stays. @returns how many days
 */
export async function keepForesightDays({ db }: { db: Db }): Promise<number> {
  let days = 0;
  for (;;) {
    const done = await withinTransaction(db, async (tx) => {
      // Two processes take turns.
      await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended('foresight days', 0))`;
      const marks = await tx.$queryRaw<{ id: string; on: string }[]>`
        SELECT id::text, "on"::text FROM "ForesightMark" WHERE "on" IN (SELECT DISTINCT "on" FROM "ForesightMark" ORDER BY "on" LIMIT ${DAYS_AT_ONCE})`;
      if (marks.length === 0) return 0;
      const which = [...new Set(marks.map((m) => m.on))];
      await tx.$executeRaw`DELETE FROM "ForesightDay" WHERE "on" = ANY(${which}::date[])`;
      await tx.$executeRaw(Prisma.sql`INSERT INTO "ForesightDay" ${sumsByDay(Prisma.sql`f."on" = ANY(${which}::date[])`)}`);
      await tx.$executeRaw`DELETE FROM "ForesightMark" WHERE id = ANY(${marks.map((m) => m.id)}::uuid[])`;
      return which.length;
    });
    if (done === 0) return days;
    days += done;
  }
}
