import { randomUUID } from 'node:crypto';
import { query } from '../../scripts/support/databases.mjs';
import { addDays, todayIn } from '../../lib/core/calendar';
import { connect, type Db } from '../../lib/database/client';
import { tasksOfUnit, unitPage } from '../../lib/features/equipment/reads/units';
import { unitEvidence } from '../../lib/features/evidence/reads/evidence';
import { shopFacts } from '../../lib/features/evidence/reads/fouling';
import { kitchenToEdit, unitsOfKitchen } from '../../lib/features/kitchens/reads/kitchens';
import { kitchenTimeline } from '../../lib/features/kitchens/reads/timeline';
import { learnedMinutes } from '../../lib/features/planning/reads/learned-minutes';
import { openVisitsOn } from '../../lib/features/visits/reads/open-visits';
import { readRound } from '../../lib/features/tablet/verbs/round';
import { bookingKitchen, kitchenTasks, nextVisit } from '../../lib/features/visits/reads/visits';
import { largeShop, openScaleServer } from './shop';

const TIMES = 15;

/** What a page of one kitchen, person or unit reads; of both shops the same unit, which the copying left as it was. */
type Page = (db: Db, one: { unitId: string; kitchenId: string; timeZone: string; technicianId: string }, now: Date) => Promise<unknown>;
const PAGES: Record<string, Page> = {
  unit: async (db, { unitId }, now) => {
    const [unit, shop] = await Promise.all([unitPage(db, unitId), shopFacts(db)]);
    return unit && unitEvidence(db, unit, now, { shop, tasks: tasksOfUnit(db, unitId) });
  },
  kitchen: (db, { kitchenId }, now) =>
    Promise.all([kitchenToEdit(db, kitchenId), kitchenTimeline(db, kitchenId, now, 40), unitsOfKitchen(db, kitchenId)]),
  book: (db, { kitchenId }, now) =>
    Promise.all([bookingKitchen(db, kitchenId), kitchenTasks(db, kitchenId), learnedMinutes(db, now, kitchenId), nextVisit(db, kitchenId, now)]), // prettier-ignore
  'a person’s fortnight': (db, { technicianId, timeZone }, now) => {
    const today = todayIn(timeZone, now.getTime());
    return openVisitsOn(db, { technicianId }, today, addDays(today, 14), timeZone);
  },
  round: (db, { technicianId }, now) =>
    readRound({ db, actor: { userId: technicianId, name: '', role: 'technician', sessionId: '' }, now }, { id: randomUUID(), name: 'bench', appVersion: '' }, ''), // prettier-ignore
};

export type Growth = { page: string; small: number; large: number };

/** Medians, ms, of what these pages read in a small and a large shop, in turns, so that whatever else is at work slows both. */
export async function measureGrowth(small: number, large: number): Promise<Growth[]> {
  const cluster = await openScaleServer();
  const shops = [await largeShop(cluster, small), await largeShop(cluster, large)];
  const [found] = await query(
    shops[0]?.url ?? '',
    `SELECT u.id AS "unitId", k.id AS "kitchenId", k."timeZone", (SELECT v."technicianId" FROM "Visit" v WHERE v."kitchenId" = k.id ORDER BY v."startsAt" DESC, v.id LIMIT 1) AS "technicianId"
     FROM "Unit" u JOIN "Kitchen" k ON k.id = u."kitchenId" JOIN "Reading" r ON r."unitId" = u.id GROUP BY u.id, k.id ORDER BY count(*) DESC, u.id LIMIT 1`,
  );
  const { unitId, kitchenId, timeZone, technicianId } = found ?? {};
  const one = { unitId, kitchenId, timeZone, technicianId };
  const at = shops.map(({ url, clock }) => ({ db: connect(url, 10), now: new Date(clock) }));
  const grown: Growth[] = [];
  for (const [page, read] of Object.entries(PAGES)) {
    const all: number[][] = [[], []];
    for (let i = -2; i < TIMES; i++)
      for (const [k, { db, now }] of at.entries()) {
        const since = performance.now();
        await read(db, one, now);
        if (i >= 0) all[k]?.push(performance.now() - since);
      }
    const [a = NaN, b = NaN] = all.map((list) => list.sort((x, y) => x - y)[Math.floor(list.length / 2)]);
    grown.push({ page, small: a, large: b });
  }
  await Promise.all(at.map(({ db }) => db.$disconnect()));
  if (!cluster.kept) await cluster.stopIfIdle();
  return grown;
}
