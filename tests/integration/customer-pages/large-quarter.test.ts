import { beforeAll, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { quarterOf } from '@/lib/core/reports/quarter';
import { quarterReport } from '@/lib/features/quarters/reads/quarter-report';
import { makePaper } from '@/lib/server/papers/paper-kinds';
import { kitchenRow, taskRow, unitRow, visitRow } from '@/prisma/seed/rows';
import { useDatabase } from '../../support/database';
import { haveOneUnit } from '../../support/factories';

// The largest summary that is promised: four kitchens of ten units, each seen every month for a year and a half.
// What is read and put in words holds up everybody, the paper is made on a thread; both are measured in processor time:
// PAPER=1 npx vitest run --project integration tests/integration/customer-pages/large-quarter
const measured = process.env.PAPER ? it : it.skip;
const database = useDatabase();
const [KITCHENS, UNITS, MONTHS] = [4, 10, 18];
const now = new Date('2026-10-05T15:00:00Z');
const summer = quarterOf(localDate('2026-08-01'));
let customerId = '';

const processorMs = async <T>(work: () => Promise<T>): Promise<[T, number]> => {
  const start = process.cpuUsage();
  const result = await work();
  const { user, system } = process.cpuUsage(start);
  return [result, (user + system) / 1000];
};
const read = async () => {
  const onFile = await quarterReport(database.db, customerId, summer, { now, language: 'en' });
  if (!onFile) throw new Error('The customer is not on file.');
  return onFile;
};

beforeAll(async () => {
  const { db } = database;
  const { customer, kitchen, person } = await haveOneUnit(db);
  customerId = customer.id;
  await db.kitchen.update({ where: { id: kitchen.id }, data: { archivedAt: now } });
  for (let k = 0; k < KITCHENS; k++) {
    const { id: kitchenId } = await db.kitchen.create({ data: kitchenRow(customerId, { name: `Lantern Street ${k + 1}` }) });
    const units = await db.unit.createManyAndReturn({
      data: Array.from({ length: UNITS }, (_, i) => unitRow(kitchenId, { name: `Reach-in ${i + 1}` })),
    });
    const tasks = await db.task.createManyAndReturn({ data: units.map((u) => taskRow(u, { kindKey: 'drain_inspection' })) });
    for (let m = 0; m < MONTHS; m++) {
      const at = new Date(Date.UTC(2025, 3 + m, 8 + k, 15));
      const visit = await db.visit.create({ data: { ...visitRow(kitchenId, person.id, at, 240), status: 'done', closedAt: at } });
      await db.finding.createMany({
        data: units.flatMap((u, i) => [
          { visitId: visit.id, unitId: u.id, at, aspect: 'coil' as const, grade: i % 2 ? 'matted' : 'filmed' },
          { visitId: visit.id, unitId: u.id, at, aspect: 'coil' as const, grade: 'bare', phase: 'left' as const },
          { visitId: visit.id, unitId: u.id, at, aspect: 'drain' as const, grade: m % 3 ? 'runs' : 'slow' },
        ]),
      });
      await db.visitTask.createMany({
        data: tasks.map((t) => ({ visitId: visit.id, taskId: t.id, unitId: t.unitId, outcome: 'done' as const, open: false })),
      });
    }
  }
});

describe('a quarter of forty units', () => {
  it('is read and put in words in a quarter of a second of the processor, whole', async () => {
    await read();
    const [onFile, ms] = await processorMs(read);
    expect(onFile.visits).toBe(KITCHENS * 3);
    expect(onFile.report.kitchens.map((k) => k.units.length)).toEqual(Array.from({ length: KITCHENS }, () => UNITS));
    for (const unit of onFile.report.kitchens.flatMap((k) => k.units)) expect(unit.lines.length).toBeGreaterThan(0);
    expect(ms).toBeLessThan(250);
  });

  measured('is on paper in ten seconds', { timeout: 120_000 }, async () => {
    const [onFile, reading] = await processorMs(read);
    for (const which of ['first', 'second', 'third']) {
      const [pdf, paper] = await processorMs(() => makePaper({ kind: 'quarter', onFile, language: 'en' }));
      console.log(
        `${which}: read ${reading.toFixed(0)} ms, paper ${paper.toFixed(0)} ms of the processor, ${(pdf.length / 1e3).toFixed(0)} kB`,
      );
      expect(paper).toBeLessThan(10_000);
    }
  });
});
