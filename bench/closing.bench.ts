import type { CoilGrade } from '../lib/core/findings/grades';
import { PLACEMENTS } from '../lib/core/equipment/build';
import type { Db } from '../lib/database/client';
import { reviseVisit } from '../lib/features/visits/verbs/revise-visit';
import { findingRow, readingRow, taskRow, unitRow, visitRow, visitTaskRow } from '../prisma/seed/rows';
import { haveOneUnit } from '../tests/support/factories';
import { withDatabase } from './database';
import type { BenchRow } from './types';

const UNITS = 9;
const VISITS = 9;
const DAY = 86_400_000;
const FIRST = Date.parse('2024-03-04T16:00:00Z');
const KINDS = ['coil_cleaning', 'drain_inspection', 'evaporator_inspection'] as const;
const GRADES = ['filmed', 'furred', 'matted'] as const;

/** A kitchen of nine units with two years of quarterly visits; the last, with 18 readings, was just closed. */
async function haveKitchen(db: Db): Promise<string> {
  const { kitchen, person } = await haveOneUnit(db, { unit: { archivedAt: new Date(FIRST) }, tasks: [] });
  const units = Array.from({ length: UNITS }, (_, i) =>
    unitRow(kitchen.id, { name: `Reach-in ${i}`, placement: PLACEMENTS[i % PLACEMENTS.length] }),
  );
  await db.unit.createMany({ data: units });
  const tasks = units.flatMap((u) => KINDS.map((kindKey) => taskRow({ id: u.id as string, kitchenId: kitchen.id }, { kindKey })));
  await db.task.createMany({ data: tasks });
  let last = '';
  for (let v = 0; v < VISITS; v++) {
    const at = new Date(FIRST + v * 91 * DAY);
    last = await db.$transaction(async (tx) => {
      const visit = await tx.visit.create({ data: visitRow(kitchen.id, person.id, at, 240, { status: 'done', closedAt: at }) });
      const { id } = visit;
      const done = tasks.map((t) => visitTaskRow(id, { id: t.id as string, unitId: t.unitId }, { outcome: 'done', open: false }));
      await tx.visitTask.createMany({ data: done });
      const looks = units.flatMap((u, i) => [
        findingRow(id, u.id as string, 'coil', GRADES[(i + v) % 3] as CoilGrade, at),
        findingRow(id, u.id as string, 'coil', 'bare', at, { phase: 'left' }),
        findingRow(id, u.id as string, 'drain', 'runs', at),
        findingRow(id, u.id as string, 'ice', 'dry', at),
      ]);
      await tx.finding.createMany({ data: looks });
      const numbers = { visitId: id, airInK: 305, boxK: 276, suctionPaGauge: 1.2e5, steadyMinutes: 15 };
      const readings = units.flatMap((u, i) => [
        readingRow(u.id as string, at, { ...numbers, phase: 'before', headPaGauge: 1.02e6 + 2e4 * (i % 4) }),
        readingRow(u.id as string, new Date(at.getTime() + 1_800_000), { ...numbers, phase: 'after', headPaGauge: 9.4e5 }),
      ]);
      await tx.reading.createMany({ data: readings });
      return id;
    });
    await reviseVisit({ db, actor: null, now: at }, last);
  }
  return last;
}

async function closing() {
  return withDatabase(async (db) => {
    const visitId = await haveKitchen(db);
    let best = Infinity;
    for (let i = 0; i < 5; i++) {
      const start = performance.now();
      await reviseVisit({ db, actor: null, now: new Date() }, visitId);
      best = Math.min(best, performance.now() - start);
    }
    return { value: best };
  });
}

export const rows: BenchRow[] = [
  {
    name: 'what follows from closing a visit of 9 units with 18 readings, two years on file',
    unit: 'ms',
    target: '< 250 ms',
    run: closing,
  },
];
