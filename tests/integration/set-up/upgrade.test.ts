import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { connect } from '@/lib/database/client';
import { create, databaseName, drop, exists, query, withDatabase } from '../../../scripts/support/databases.mjs';
import { migrate, migrations, pending } from '../../../scripts/support/migrations.mjs';
import { ensureShop } from '../../../scripts/support/shop.mjs';

const LAYOUT = '20261126030000';
let url = '';

beforeAll(async () => {
  url = withDatabase(inject('databaseTemplate'), `${inject('databasePrefix')}_upgrade`);
  await create(url);
  await migrate(
    url,
    migrations().filter((m) => m.name.slice(0, LAYOUT.length) <= LAYOUT),
  );
  await query(url, await readFile(path.join(import.meta.dirname, 'layouts', `${LAYOUT}.sql`), 'utf8'));
});
afterAll(() => drop(url));

it('an update that fails on a copy leaves the shop in the layout it had, and what runs on it goes on writing', async () => {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-update-'));
  process.env.RIMEBOOK_BACKUP_FOLDER = folder;
  const due = await pending(url);
  await query(
    url,
    `INSERT INTO "OutboxMessage" (id, kind, "toEmail", subject, text) VALUES (gen_random_uuid(), 'pigeon', 'a@b.example', 's', 't')`,
  );
  let writing = true;
  let written = 0;
  const old = (async () => {
    for (; writing; written++)
      await query(url, `INSERT INTO "Customer" (id, name) VALUES (gen_random_uuid(), $1)`, [`Meanwhile ${written}`]);
  })();
  try {
    await expect(ensureShop(url, { demo: false })).rejects.toThrow(/left as it is[^]*closed_sets failed/);
  } finally {
    writing = false;
    delete process.env.RIMEBOOK_BACKUP_FOLDER;
  }
  await old;
  expect(written).toBeGreaterThan(0);
  expect(await query(url, `SELECT count(*)::int AS n FROM "Customer" WHERE name LIKE 'Meanwhile %'`)).toEqual([{ n: written }]);
  // Not even the steps before the one that fails were taken, and nothing is left of the copy.
  expect(await pending(url)).toEqual(due);
  expect(await exists(withDatabase(url, `${databaseName(url)}_rehearsal`))).toBe(false);
  expect(readdirSync(folder)).toHaveLength(1);
  rmSync(folder, { recursive: true });
  await query(url, `DELETE FROM "OutboxMessage"`);
  await query(url, `DELETE FROM "Customer" WHERE name LIKE 'Meanwhile %'`);
});

it('a migration that fails keeps nothing of itself, and everything on file stands as it was', async () => {
  const onFile = () =>
    query(
      url,
      'SELECT u.tag, t.rule, t."dueOn", f.grade FROM "Unit" u JOIN "Task" t ON t."unitId" = u.id JOIN "Finding" f ON f."unitId" = u.id ORDER BY 1, 2, 4',
    );
  const before = await onFile();
  expect(before.length).toBeGreaterThan(0);
  await query(url, 'CREATE TABLE "KitchenFouling" (planted int)');
  await expect(migrate(url)).rejects.toThrow(/20261127310100_owner_rollups failed, and nothing of it was kept/);
  expect(await onFile()).toMatchObject(before.map(({ tag, rule }) => ({ tag, rule })));
  // Its first table was made before it failed; of it nothing is left, and it is not said to be applied.
  expect(await query(url, `SELECT to_regclass('"UnitMatter"') AS made`)).toEqual([{ made: null }]);
  expect((await pending(url))[0]).toBe('20261127310100_owner_rollups');
  await query(url, 'DROP TABLE "KitchenFouling"');
});

const ID = (n: number) => `00000000-0000-4000-8000-0000000000a${n}`;

/** One more unit like the one on file, built otherwise, with its task. */
async function copyUnit(n: number, build: Record<string, string>): Promise<void> {
  const over = JSON.stringify({ id: ID(n), tag: `CP-${n}`, name: `Copy ${n}`, ...build });
  const kindKey = build.kind === 'ice_machine' ? 'evaporator_inspection' : 'coil_cleaning';
  const task = JSON.stringify({ id: ID(n), unitId: ID(n), kindKey });
  await query(url, `INSERT INTO "Unit" SELECT (jsonb_populate_record(u, $1)).* FROM "Unit" u WHERE tag = 'FH-1'`, [over]);
  await query(url, `INSERT INTO "Task" SELECT (jsonb_populate_record(t, $1)).* FROM "Task" t LIMIT 1`, [task]);
}

it('a shop of an earlier layout is brought up to today’s with everything that was on file', async () => {
  for (const [n, build] of [
    [1, { condenserKind: 'water_cooled' }],
    [2, { kind: 'ice_machine' }],
  ] as const)
    await copyUnit(n, build);
  expect((await migrate(url)).length).toBeGreaterThan(1);
  expect(await pending(url)).toEqual([]);
  const db = connect(url, 2);
  try {
    const unit = await db.unit.findUniqueOrThrow({
      where: { tag: 'FH-1' },
      include: { kitchen: { include: { customer: true } }, tasks: true },
    });
    expect([unit.kind, unit.placement, unit.refrigerant, unit.kitchen.customer.name]).toEqual(['reach_in', 'fryer', 'R290', 'Copper Fern']);
    expect(unit.tasks.map((t) => [t.kindKey, t.rule, t.dueOn.toISOString().slice(0, 10)])).toEqual([
      ['coil_cleaning', 'FREQ=WEEKLY;INTERVAL=6', '2026-12-01'],
    ]);
    // Water is not brushed, and an ice machine's plate is looked at with its cleaning: settled, with a line in their history.
    const settled = await db.task.findMany({ where: { id: { in: [ID(1), ID(2)] } }, include: { changes: true }, orderBy: { id: 'asc' } });
    expect(settled.map((t) => [t.kindKey, t.active, t.rule, t.changes.map((c) => c.kind)])).toEqual([
      ['water_side_check', true, 'FREQ=WEEKLY;INTERVAL=6', ['edited']],
      ['evaporator_inspection', false, 'FREQ=WEEKLY;INTERVAL=6', ['edited']],
    ]);
    await db.unit.update({ where: { id: ID(1) }, data: { condenserKind: 'microchannel' } });
    const back = await db.task.findUniqueOrThrow({ where: { id: ID(1) }, include: { changes: true } });
    expect([back.kindKey, back.changes.length]).toEqual(['coil_cleaning', 2]);
    const visit = await db.visit.findFirstOrThrow({ include: { findings: { orderBy: { at: 'asc' } }, tasks: true, technician: true } });
    expect([visit.status, visit.technician.name, visit.doneMinutes]).toEqual(['done', 'Ilo Brandt', 0]);
    expect(visit.findings.map((f) => [f.aspect, f.grade])).toEqual([
      ['coil', 'matted'],
      ['drain', 'slow'],
    ]);
    expect(visit.tasks.map((t) => [t.outcome, t.reason])).toEqual([['not_done', 'The line was cooking.']]);
    // What was a follow-up is a job, with its unit and the first line of its history.
    const job = await db.job.findFirstOrThrow({ include: { units: true, events: true } });
    expect([job.what, job.closedAt, job.units.map((u) => u.unitId), job.events.length]).toEqual([
      'Quote a door gasket',
      null,
      [unit.id],
      1,
    ]);
    expect(await db.entry.findMany({ select: { kind: true, outcome: true, deviceSeq: true } })).toEqual([
      { kind: 'visit.arrive', outcome: 'applied', deviceSeq: 1 },
    ]);
    expect(await db.auditEntry.count()).toBe(1);
  } finally {
    await db.$disconnect();
  }
});

it('a shop of a later layout too: its book, parts, quote, picture and page stay, and what is kept beside them is filled', async () => {
  const layout = '20261127250000';
  const later = withDatabase(url, `${databaseName(url)}_later`);
  await create(later);
  try {
    await migrate(
      later,
      migrations().filter((m) => m.name.slice(0, layout.length) <= layout),
    );
    await query(later, await readFile(path.join(import.meta.dirname, 'layouts', `${layout}.sql`), 'utf8'));
    expect((await migrate(later)).length).toBeGreaterThan(1);
    const db = connect(later, 2);
    try {
      const unit = await db.unit.findUniqueOrThrow({
        where: { tag: 'HC-1' },
        include: { tasks: true, findings: { orderBy: { at: 'asc' } }, cylinderEntries: true, matters: true, readings: true },
      });
      expect(unit.tasks.map((t) => [t.rule, t.dueOn.toISOString().slice(0, 10)])).toEqual([['FREQ=WEEKLY;INTERVAL=8', '2026-12-15']]);
      expect(unit.findings.flatMap((f) => (f.aspect === 'coil' ? f.grade : []))).toEqual(['matted', 'bare']);
      expect(unit.readings.map((r) => r.headPaGauge)).toEqual([1_200_000]);
      expect(unit.cylinderEntries.map((e) => [e.way, e.kg])).toEqual([['charged', -0.2]]);
      // A fan that stands still waits for the owner: filled from what was on file before there was such a table.
      expect(unit.matters.length).toBeGreaterThan(0);
      const part = await db.part.findFirstOrThrow({ include: { used: true } });
      expect([part.number, part.inVan, part.inShop, part.used.map((u) => u.taken)]).toEqual(['FM-9', 3, 5, [1]]);
      const job = await db.job.findFirstOrThrow({ include: { quotes: true } });
      expect([job.number, job.state, job.quotes.map((q) => [q.totalCents, q.answer])]).toEqual([7, 'quoted', [[4200, null]]]);
      const file = await db.storedFile.findFirstOrThrow({ include: { photos: true } });
      expect([
        Buffer.from((await db.keptPicture.findUniqueOrThrow({ where: { hash: file.content } })).bytes).toString('hex'),
        file.photos.length,
      ]).toEqual(['00ff10', 1]);
      expect((await db.customerPage.findFirstOrThrow()).language).toBe('es');
      expect(await db.visit.count({ where: { status: 'booked' } })).toBe(1);
      expect((await db.outboxMessage.findFirstOrThrow()).status).toBe('sent');
    } finally {
      await db.$disconnect();
    }
  } finally {
    await drop(later);
  }
});
