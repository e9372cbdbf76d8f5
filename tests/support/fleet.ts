import type { Db } from '@/lib/database/client';

const ZONES = ['America/Chicago', 'America/New_York', 'America/Denver', 'America/Los_Angeles', 'Pacific/Honolulu'];

/**
 * A large invented fleet made by the database itself: ten units a kitchen, three tasks a unit, due dates spread evenly from
 * 60 days before `today` to 120 days after it, one task in twenty on an open visit.
 */
export async function haveLargeFleet(db: Db, units: number, today: string): Promise<void> {
  const kitchens = Math.ceil(units / 10);
  await db.shopSettings.createMany({ data: { id: 1, name: 'Large shop', timeZone: 'America/Chicago' }, skipDuplicates: true });
  await db.$executeRaw`INSERT INTO "Customer" (id, name) SELECT gen_random_uuid(), 'Chain ' || g FROM generate_series(1, ${Math.ceil(kitchens / 5)}::int) g`;
  await db.$executeRaw`
    WITH c AS (SELECT id, row_number() OVER (ORDER BY name) AS n, count(*) OVER () AS all_of FROM "Customer" WHERE name LIKE 'Chain %')
    INSERT INTO "Kitchen" (id, "customerId", name, address, "timeZone")
    SELECT gen_random_uuid(), c.id, 'Kitchen ' || g, g || ' ' || (ARRAY['Mill', 'Harbor', 'Canal', 'Orchard', 'Station'])[1 + g % 5] || ' Street, ' || (ARRAY['Fairhaven', 'Norwick', 'Elmsby', 'Tarn'])[1 + g % 4],
      (${ZONES}::text[])[1 + g % ${ZONES.length}::int]
    FROM generate_series(1, ${kitchens}::int) g JOIN c ON c.n = 1 + g % c.all_of`;
  await db.$executeRaw`
    WITH k AS (SELECT id, row_number() OVER (ORDER BY name) AS n, count(*) OVER () AS all_of FROM "Kitchen" WHERE name LIKE 'Kitchen %')
    INSERT INTO "Unit" (id, "kitchenId", tag, name, kind, refrigerant, placement)
    SELECT gen_random_uuid(), k.id, 'L' || g, (ARRAY['Reach-in', 'Walk-in cooler', 'Prep table', 'Drawer base'])[1 + g % 4] || ' ' || g, 'reach_in', 'R290', (ARRAY['fryer', 'line', 'bar', 'back_of_house'])[1 + g % 4]::"Placement"
    FROM generate_series(1, ${units}::int) g JOIN k ON k.n = 1 + g % k.all_of`;
  await db.$executeRaw`
    WITH due AS (SELECT u.id, u."kitchenId", tk.key, ${today}::date - 60 + ((hashtextextended(u.tag || tk.key, 7) % 180 + 180) % 180)::int AS on_day
      FROM "Unit" u CROSS JOIN (SELECT key FROM "TaskKind" ORDER BY sort LIMIT 3) tk WHERE u.tag LIKE 'L%')
    INSERT INTO "Task" (id, "unitId", "kitchenId", "kindKey", rule, "anchorDate", "dueOn")
    SELECT gen_random_uuid(), id, "kitchenId", key, 'FREQ=WEEKLY;INTERVAL=8', on_day, on_day FROM due`;
  const technician = await db.user.create({
    data: { email: 'large@shop.example', name: 'Large', role: 'technician', passwordHash: 'none' },
  });
  await db.$executeRaw`
    INSERT INTO "Visit" (id, "kitchenId", "technicianId", "startsAt", "endsAt", "updatedAt")
    SELECT gen_random_uuid(), k.id, ${technician.id}::uuid, ${today}::date + (row_number() OVER (ORDER BY k.id)) * interval '1 hour', ${today}::date + (row_number() OVER (ORDER BY k.id)) * interval '1 hour' + interval '1 hour', now()
    FROM "Kitchen" k WHERE k.name LIKE 'Kitchen %'`;
  await db.$executeRaw`
    INSERT INTO "VisitTask" (id, "visitId", "taskId", "unitId")
    SELECT gen_random_uuid(), v.id, t.id, t."unitId" FROM "Task" t JOIN "Visit" v ON v."kitchenId" = t."kitchenId" WHERE hashtextextended(t.id::text, 1) % 20 = 0`;
  await db.$executeRaw`ANALYZE`;
}
