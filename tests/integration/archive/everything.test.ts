import { createWriteStream, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { Writable } from 'node:stream';
import Papa from 'papaparse';
import { BlobReader, TextWriter, Uint8ArrayWriter, ZipReader, type FileEntry } from '@zip.js/zip.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LEFT_OUT_MODELS } from '@/lib/core/archive';
import { fetchArchive } from '@/lib/features/archive/verbs/fetch-archive';
import { makeArchive } from '@/lib/features/archive/verbs/make-archive';
import { startArchive } from '@/lib/features/archive/verbs/start-archive';
import { writeArchive } from '@/lib/features/archive/verbs/write-archive';
import { archives } from '@/lib/features/archive/reads/archives';
import { connect } from '@/lib/database/client';
import { passwordMatches } from '@/lib/features/people/verbs/password';
import { takeIn } from '@/scripts/support/archive-of-everything.mjs';
import { databaseName, drop, exists, query, withDatabase } from '@/scripts/support/databases.mjs';
import { useDatabase } from '../../support/database';
import { haveOneUnit, jobRow } from '../../support/factories';
import { hashOf } from '@/lib/database/pictures/picture-store.mjs';
import { havePicture, picturesIn } from '@/tests/support/pictures';

const database = useDatabase();
const folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-everything-'));
const schema = readFileSync('prisma/schema.prisma', 'utf8');
const NOW = new Date('2026-11-27T12:00:00Z');
const HARD = 'Tab\there, "quotes", \\N, \\. and\nlines; Zoë 🧊';
const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 255]);
const TOKEN = 'k3JhX_9'.repeat(6) + 'a';
let userId: string;
let target: string;

const options = () => ({ now: NOW, schema, pictures: picturesIn(database.db), onProgress: () => {} });
async function out(url: string, name: string): Promise<string> {
  const file = path.join(folder, name);
  await writeArchive(url, Writable.toWeb(createWriteStream(file)) as WritableStream<Uint8Array>, options());
  return file;
}
async function entries(file: string): Promise<Map<string, FileEntry>> {
  const found = await new ZipReader(new BlobReader(new Blob([readFileSync(file)]))).getEntries();
  return new Map(found.flatMap((e) => (e.directory ? [] : [[e.filename, e] as const])));
}
const text = async (file: string, name: string) => (await entries(file)).get(name)?.getData(new TextWriter()) ?? '';

beforeAll(async () => {
  const { db } = database;
  const made = await haveOneUnit(db, {
    kitchen: { accessNotes: HARD, lat: 39.7392, lng: 0.1 + 0.2, altitudeM: 5e-324 },
    unit: { name: "=cmd|' /c calc'!A1", chargeKg: 1 / 3 },
    person: { role: 'owner', passwordHash: 'the-hash-of-a-password', spareCodes: ['spare-code-hash'] },
  });
  userId = made.person.id;
  const second = await db.unit.create({
    data: {
      ...(await db.unit.findFirstOrThrow({ omit: { id: true, compressorMap: true } })),
      tag: 'NEXT-1',
      name: 'Its successor',
      replacesId: made.unit.id,
    },
  });
  const visit = await db.visit.create({
    data: {
      kitchenId: made.kitchen.id, technicianId: userId, startsAt: new Date('2026-11-20T15:00:00.123Z'), endsAt: new Date('2026-11-20T16:00:00Z'), signaturePng: PNG, signedBy: 'Z',
      findings: { create: { unitId: second.id, aspect: 'coil', grade: 'furred', at: new Date('2026-11-20T15:10:00Z') } },
      links: { create: { tokenHash: 'customer-token-hash', expiresAt: NOW } },
    },
  }); // prettier-ignore
  const stored = await havePicture(db, new Uint8Array(300_000).fill(7), { thumbnail: new Uint8Array([0, 255]) });
  await db.photo.create({ data: { id: crypto.randomUUID(), visitId: visit.id, takenAt: NOW, sha256: 'cd', fileId: stored.id } });
  await db.job.create({ data: jobRow(made.unit) });
  await db.outboxMessage.create({ data: { kind: 'password_link', toEmail: 'o@shop.example', subject: 'x', text: `Open http://shop/sign-in/link/${TOKEN}\n`, createdAt: NOW } }); // prettier-ignore
  await db.auditEntry.create({ data: { action: 'unit.edited', detail: { n: 1.5, list: ['a', null], deep: { x: HARD } } } });
  await db.brake.create({ data: { key: 'x', tries: [NOW], lastAt: NOW } });
  target = withDatabase(database.url, `${databaseName(database.url)}_in`);
});
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await drop(target);
});

describe('everything leaves', () => {
  it('comes in again as the same bytes, in a shop whose rules are alive and whose owner can sign in anew', async () => {
    const first = await out(database.url, 'first.zip');
    const { rows, links } = await takeIn(first, target, NOW);
    expect(rows.Unit).toBe(2);
    const second = await out(target, 'second.zip');
    expect(readFileSync(second).equals(readFileSync(first))).toBe(true);

    const again = connect(target, 2);
    const kitchen = await again.kitchen.findFirstOrThrow();
    expect([kitchen.accessNotes, kitchen.lng, kitchen.altitudeM]).toEqual([HARD, 0.1 + 0.2, 5e-324]);
    expect(Buffer.from((await again.visit.findFirstOrThrow()).signaturePng!).equals(PNG)).toBe(true);
    const job = await again.job.findFirstOrThrow();
    const next = await again.job.create({ data: jobRow({ id: (await again.unit.findFirstOrThrow()).id, kitchenId: kitchen.id }) });
    expect(next.number).toBe(job.number + 1);
    const owner = await again.user.findFirstOrThrow();
    expect([await passwordMatches(owner.passwordHash, ''), owner.spareCodes]).toEqual([false, []]);
    expect(links).toEqual([{ name: owner.name, path: expect.stringMatching(/^\/sign-in\/link\/[\w-]{43}$/) }]);
    expect(await again.passwordLink.count()).toBe(1);
    await again.$disconnect();
    const [{ off }] = (await query(target, `SELECT count(*)::int AS off FROM pg_trigger WHERE NOT tgisinternal AND tgenabled <> 'O'`)) as [
      { off: number },
    ];
    expect(off).toBe(0);
  });

  it('holds each table of the database or says why not, what every column means, and nothing that lets anybody in', async () => {
    const file = await out(database.url, 'looked-at.zip');
    const found = await entries(file);
    const tables = (await query(database.url, `SELECT relname::text AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r' AND relname <> '_prisma_migrations'`)) as { name: string }[]; // prettier-ignore
    for (const { name } of tables) expect([name, found.has(`json/${name}.jsonl`), found.has(`csv/${name}.csv`)]).toEqual([name, !(name in LEFT_OUT_MODELS), !(name in LEFT_OUT_MODELS)]); // prettier-ignore
    const readme = await text(file, 'README.md');
    for (const name of Object.keys(LEFT_OUT_MODELS)) expect(readme).toContain(`**${name}**`);
    const described = JSON.parse(await text(file, 'schema.json')) as {
      table: string;
      columns: { column: string; type: string; meaning: string }[];
    }[];
    expect(described.length).toBe(tables.length);
    expect(described.flatMap((t) => t.columns.filter((c) => !c.meaning || !c.type || c.type === 'bytea' && !/file of this name/.test(c.meaning) && !(t.table in LEFT_OUT_MODELS)))).toEqual([]); // prettier-ignore
    for (const [name, entry] of found) {
      const body = Buffer.from(await entry.getData(new Uint8ArrayWriter()));
      for (const secret of ['the-hash-of-a-password', 'spare-code-hash', 'customer-token-hash', TOKEN])
        expect([name, body.includes(secret)]).toEqual([name, false]);
    }
    expect(
      Buffer.from(await found.get(`pictures/${hashOf(new Uint8Array(300_000).fill(7))}.jpg`)!.getData(new Uint8ArrayWriter())).length,
    ).toBe(300_000);
  });

  it('says the same in CSV as in JSON, and a spreadsheet runs none of it', async () => {
    const file = await out(database.url, 'both.zip');
    for (const table of ['Kitchen', 'Unit', 'Visit', 'AuditEntry', 'User', 'Finding']) {
      const json = (await text(file, `json/${table}.jsonl`)).trim().split('\n').map((line) => JSON.parse(line) as Record<string, unknown>); // prettier-ignore
      const csv = Papa.parse<Record<string, string>>((await text(file, `csv/${table}.csv`)).trimEnd(), { header: true }).data;
      expect(csv.length).toBe(json.length);
      const cell = (v: unknown) => (v === null ? '' : typeof v === 'object' ? JSON.stringify(v) : String(v));
      const loose = (s: string) => s.replace(/^'(?=[=+\-@])/, '').replace(/(?<=[[{,:]) /g, '');
      csv.forEach((row, i) => {
        for (const [name, value] of Object.entries(json[i]!))
          expect([table, name, loose(row[name]!)]).toEqual([table, name, loose(cell(value))]);
      });
    }
    expect(await text(file, 'csv/Unit.csv')).toContain(`'=cmd|`);
  });

  it('is taken in nowhere when it is cut or changed, and never over a shop', async () => {
    const whole = readFileSync(path.join(folder, 'first.zip'));
    const elsewhere = withDatabase(database.url, `${databaseName(database.url)}_not`);
    const spoiled = path.join(folder, 'spoiled.zip');
    const flipped = Buffer.from(whole);
    flipped[Math.floor(whole.length / 2)]! ^= 1;
    for (const bytes of [whole.subarray(0, whole.length - 1000), flipped]) {
      writeFileSync(spoiled, bytes);
      await expect(takeIn(spoiled, elsewhere, NOW)).rejects.toThrow(/damaged/);
      expect(await exists(elsewhere)).toBe(false);
    }
    await expect(takeIn(path.join(folder, 'first.zip'), target, NOW)).rejects.toThrow(/already/);
  });

  it('is made by the queue in pieces, one at a time, fetched while it lasts, and gone afterwards', async () => {
    const { db } = database;
    const ctx = { db, actor: { userId }, now: NOW };
    const id = await startArchive(ctx);
    await expect(startArchive(ctx)).rejects.toThrow(/being made already/);
    await makeArchive({ db, now: NOW, pictures: picturesIn(db) }, database.url, schema);
    const [run] = await archives(db, NOW);
    expect([run?.status, run?.doneRows, run?.gone]).toEqual(['done', run?.rows, false]);
    const { pieces, bytes } = await fetchArchive(ctx, id);
    const all: Uint8Array[] = [];
    for await (const piece of pieces) all.push(piece);
    expect(Buffer.concat(all).length).toBe(bytes);
    // The archive itself is no part of an archive: but for who asked for it, it is the one of before.
    writeFileSync(path.join(folder, 'fetched.zip'), Buffer.concat(all));
    expect(await text(path.join(folder, 'fetched.zip'), 'json/Unit.jsonl')).toBe(
      await text(path.join(folder, 'first.zip'), 'json/Unit.jsonl'),
    );
    const later = new Date(NOW.getTime() + 4 * 86_400_000);
    await expect(fetchArchive({ ...ctx, now: later }, id)).rejects.toThrow(/not here any more/);
    await makeArchive({ db, now: later, pictures: picturesIn(db) }, database.url, schema);
    expect(await db.archivePiece.count()).toBe(0);
  });

  it('that a dead process left is taken up three times, and then given up', async () => {
    const { db } = database;
    const id = await startArchive({ db, actor: { userId }, now: NOW });
    const dead = { status: 'running', beatAt: new Date(0) } as const;
    await db.archiveRun.update({ where: { id }, data: { ...dead, tries: 3 } });
    await makeArchive({ db, now: NOW, pictures: picturesIn(db) }, database.url, schema);
    expect((await db.archiveRun.findUniqueOrThrow({ where: { id } })).status).toBe('failed');
  });
});
