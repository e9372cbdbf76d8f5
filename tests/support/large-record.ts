import type { Db } from '@/lib/database/client';

const LOOKS = 4;
/** So many that nobody is in two kitchens at once. */
const TECHNICIANS = 20;

/**
 * A record for a large invented fleet, made by the database itself: beliefs about nine coils in ten, a closed visit to each
 * kitchen each quarter of a year with a look at every coil, what was expected of each, and some changes and jobs.
 */
export async function haveLargeRecord(db: Db, today: string): Promise<void> {
  await db.user.createMany({
    data: Array.from({ length: TECHNICIANS }, (_, i) => ({
      email: `large${i}@shop.example`,
      name: `Large ${i}`,
      role: 'technician' as const,
      passwordHash: 'none',
    })),
  });
  await db.$executeRaw`
    INSERT INTO "UnitFouling" ("unitId", posterior, "ratePerDay", "rateSdPerDay", "evidenceCount", "modelVersion", "updatedAt", "lnK", "lnKSd", "asOf")
    SELECT id, '{}', 0.001 + 0.004 * r, 0.0005 + 0.001 * r, 1 + (20 * r)::int, 'large', now(), -0.2 * r, 0.1, ${today}::date - 30
    FROM (SELECT id, (hashtextextended(tag, 3) % 1000 + 1000) % 1000 / 1000.0 AS r FROM "Unit") u WHERE r < 0.9`;
  await db.$executeRaw`
    INSERT INTO "Visit" (id, "kitchenId", "technicianId", status, "startsAt", "endsAt", "arrivedAt", "leftAt", "closedAt", "updatedAt")
    SELECT gen_random_uuid(), k.id, p.id, 'done', at, at + interval '50 minutes', at, at + interval '50 minutes', at + interval '50 minutes', now()
    FROM (SELECT k.id, ${today}::date - 365 + (row_number() OVER (ORDER BY g, k.id)) * interval '1 hour' * 8760.0 / (${LOOKS}::int * count(*) OVER (PARTITION BY g)) AS at, row_number() OVER (ORDER BY g, k.id) % ${TECHNICIANS}::int AS turn
      FROM "Kitchen" k CROSS JOIN generate_series(1, ${LOOKS}::int) g) k
      JOIN (SELECT id, row_number() OVER (ORDER BY email) - 1 AS n FROM "User" WHERE email LIKE 'large_%@shop.example' AND email <> 'large@shop.example') p ON p.n = k.turn`;
  await db.$executeRaw`
    INSERT INTO "Finding" (id, "visitId", "unitId", aspect, grade, phase, at, "byUserId")
    SELECT gen_random_uuid(), v.id, u.id, 'coil', (ARRAY['bare', 'filmed', 'furred', 'matted', 'packed'])[1 + (hashtextextended(v.id::text || u.tag, 5) % 5 + 5) % 5]::"Grade", 'found', v."startsAt", v."technicianId"
    FROM "Visit" v JOIN "Unit" u ON u."kitchenId" = v."kitchenId" WHERE v.status = 'done'`;
  await db.$executeRaw`
    INSERT INTO "Foresight" ("visitId", "unitId", "on", evidence, "modelVersion", chances, likely, "likelyChance", "lnK", "lnKSd", "mattedChance", "mattedFrom", "mattedTo", found, "foundById")
    SELECT f."visitId", f."unitId", f.at::date, 5, 'large', '{0.1,0.2,0.4,0.2,0.1}', '{2,1,3}', 0.8, -0.2, 0.1, 0.3, f.at::date - 10, f.at::date + 40, f.grade, f."byUserId"
    FROM "Finding" f WHERE f.aspect = 'coil' AND f.phase = 'found'`;
  await db.$executeRaw`
    INSERT INTO "RuleChange" (id, "taskId", at, kind, "fromRule", "toRule", reason)
    SELECT gen_random_uuid(), t.id, ${today}::date - 5, 'evidence', 'FREQ=WEEKLY;INTERVAL=8', 'FREQ=WEEKLY;INTERVAL=6', 'Large.' FROM "Task" t WHERE hashtextextended(t.id::text, 9) % 300 = 0`;
  await db.$executeRaw`
    INSERT INTO "Job" (id, "kitchenId", source, what, "createdAt") SELECT gen_random_uuid(), k.id, 'call', 'Large', ${today}::date - (row_number() OVER (ORDER BY k.id) % 300)::int FROM "Kitchen" k`;
  await db.$executeRaw`ANALYZE`;
}
