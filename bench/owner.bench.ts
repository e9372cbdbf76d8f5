import { fromLocalDate } from '../lib/core/calendar/date-column';
import { addDays, type LocalDate } from '../lib/core/calendar';
import type { Db } from '../lib/database/client';
import { dueCounts, zonesOnFile } from '../lib/features/due/reads';
import { ruleChanges, unreadChanges } from '../lib/features/owner/reads/changes';
import { coilsPastSaving, deadFans, openWork, recurrentDrains } from '../lib/features/owner/reads/decisions';
import { foresightsSince, judgedForesights, surprises } from '../lib/features/owner/reads/foresights';
import { foulingKitchens } from '../lib/features/owner/reads/kitchens';
import { foulingRanking, rankingChoices } from '../lib/features/owner/reads/ranking';
import { foodWarnings, replayOnFile } from '../lib/features/owner/reads/replay';
import { gasLost, jobsWaiting, quoteMoney, warrantiesEnding } from '../lib/features/owner/reads/shop-money';
import { overdueGroups, workDone } from '../lib/features/owner/reads/shop-work';
import { callOuts } from '../lib/features/owner/reads/visit-lines';
import { haveLargeFleet } from '../tests/support/fleet';
import { haveLargeRecord } from '../tests/support/large-record';
import { withDatabase } from './database';
import type { BenchRow } from './types';

const NOW = new Date('2026-03-04T18:00:00Z');
const TODAY = '2026-03-04' as LocalDate;
const UNITS = 50_000;
const ZONE = 'America/Chicago';
const TIMES = 20;

/** What each page asks of the database, all of it. */
const PAGES: Record<string, (db: Db) => Promise<unknown>> = {
  today: (db) =>
    Promise.all([
      foulingKitchens(db, NOW, { take: 31, skip: 0 }),
      ruleChanges(db, { since: new Date(NOW.getTime() - 60 * 86_400_000), unreadOnly: true, take: 4 }),
      unreadChanges(db),
      coilsPastSaving(db),
      deadFans(db),
      recurrentDrains(db, NOW),
      openWork(db, fromLocalDate(TODAY)),
      zonesOnFile(db, NOW).then((zones) => dueCounts(db, zones, { booked: true }, 14)),
      zonesOnFile(db, NOW).then((zones) => dueCounts(db, zones, {}, 14)),
    ]),
  'kitchens ranked': (db) => Promise.all([foulingRanking(db, { by: 'kitchen' }, { take: 40, skip: 0 }), rankingChoices(db), replayOnFile(db), foodWarnings(db, NOW)]), // prettier-ignore
  'coils ranked': (db) => Promise.all([foulingRanking(db, { by: 'unit' }, { take: 40, skip: 0 }), rankingChoices(db), replayOnFile(db), foodWarnings(db, NOW)]), // prettier-ignore
  'the shop': (db) =>
    Promise.all([
      workDone(db, addDays(TODAY, -90), TODAY, ZONE, NOW),
      callOuts(db, addDays(TODAY, -90), TODAY, ZONE, NOW),
      overdueGroups(db, NOW),
      jobsWaiting(db),
      quoteMoney(db, addDays(TODAY, -90), TODAY, ZONE),
      gasLost(db, addDays(TODAY, -90), TODAY, ZONE),
      warrantiesEnding(db, fromLocalDate(TODAY), fromLocalDate(addDays(TODAY, 90))),
      judgedForesights(db, addDays(TODAY, -90), TODAY),
    ]),
  'is it right': (db) =>
    Promise.all([foresightsSince(db), judgedForesights(db, addDays(TODAY, -365), TODAY), surprises(db, addDays(TODAY, -365), TODAY)]),
};

/** The time that 19 of 20 stay under, ms; the first, which fills the database's memory, is not counted. */
async function p95(work: () => Promise<unknown>): Promise<number> {
  await work();
  const times: number[] = [];
  for (let i = 0; i < TIMES; i++) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[Math.ceil(0.95 * TIMES) - 1] ?? NaN;
}

let measured: Promise<Record<string, number>> | undefined;
const times = () =>
  (measured ??= withDatabase(async (db) => {
    await haveLargeFleet(db, UNITS, TODAY);
    await haveLargeRecord(db, TODAY);
    const found: Record<string, number> = {};
    for (const [page, ask] of Object.entries(PAGES)) found[page] = await p95(() => ask(db));
    return found;
  }));

export const rows: BenchRow[] = Object.keys(PAGES).map((page) => ({
  name: `owner’s page at ${UNITS.toLocaleString('en-US')} units, reading, p95: ${page}`,
  unit: 'ms',
  target: '< 300 ms',
  run: async () => ({ value: (await times())[page] ?? NaN }),
}));
