import 'server-only';
import { todayIn } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { ASPECTS, stoppedGrades, type Aspect } from '../../../core/findings/grades';
import { Prisma, type Tx } from '../../../database/client';
import { openJobLines } from './lists';
import { pastWorkBefore } from './past-work';

const STOPPED = Prisma.join(ASPECTS.flatMap((a) => stoppedGrades(a).map((g) => `${a} ${g}`)));

type Standing = { unitId: string; unit: string; aspect: Aspect; grade: string; at: Date };

/** What stands wrong at a kitchen: the last look at each part of each unit that left it failed. */
const standingTrouble = (db: Tx, kitchenId: string) =>
  db.$queryRaw<Standing[]>(Prisma.sql`
    WITH last AS (
      SELECT DISTINCT ON (f."unitId", f.aspect) f."unitId", u.name AS unit, f.aspect::text, f.grade::text, f.at
      FROM "Finding" f JOIN "Unit" u ON u.id = f."unitId"
      WHERE u."kitchenId" = ${kitchenId}::uuid AND u."archivedAt" IS NULL AND f.grade IS NOT NULL AND f."supersededAt" IS NULL
      ORDER BY f."unitId", f.aspect, f.at DESC, (f.phase = 'left') DESC
    )
    SELECT * FROM last WHERE aspect || ' ' || grade IN (${STOPPED}) ORDER BY at DESC LIMIT 20`);

/** Everything that one has to know of a kitchen that rings, on one screen. Null where it is not on file. */
export async function kitchenDesk(db: Tx, kitchenId: string, now: Date) {
  const kitchen = await db.kitchen.findFirst({
    where: { id: kitchenId, archivedAt: null },
    include: {
      customer: { select: { id: true, name: true, phone: true, contactName: true } },
      units: { where: { archivedAt: null }, orderBy: { name: 'asc' }, select: { id: true, name: true, tag: true, kind: true } },
    },
  });
  if (!kitchen) return null;
  const today = todayIn(kitchen.timeZone, now.getTime());
  const seen = { select: { id: true, startsAt: true, leftAt: true, status: true, note: true, technician: { select: { name: true } } } };
  return {
    kitchen,
    today,
    last: await db.visit.findFirst({ where: { kitchenId, status: 'done' }, orderBy: { startsAt: 'desc' }, ...seen }),
    coming: await db.visit.findMany({
      where: { kitchenId, status: { in: ['booked', 'started'] } },
      orderBy: { startsAt: 'asc' },
      take: 5,
      ...seen,
    }),
    trouble: await standingTrouble(db, kitchenId),
    jobs: await openJobLines(db, { kitchenId }),
    overdue: await db.task.count({ where: { kitchenId, active: true, dueOn: { lt: fromLocalDate(today) } } }),
    past: await pastWorkBefore(db, kitchen, today),
  };
}
