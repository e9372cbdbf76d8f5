import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backUp, restore } from '@/scripts/support/backup.mjs';
import { databaseName, drop, exists, query, withDatabase } from '@/scripts/support/databases.mjs';
import { connect } from '@/lib/database/client';
import { exportFleet } from '@/lib/features/fleet-csv/verbs/export-fleet';
import { whole } from '../../support/whole';
import { useDatabase } from '../../support/database';
import { haveOneUnit } from '../../support/factories';
import { havePicture } from '@/tests/support/pictures';

const database = useDatabase();
const folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-backup-'));
const file = path.join(folder, 'shop.rimebook');
const SECRET = 'kept in the safe at the bank';
let userId: string;
let target: string;

/** Every row of every table, hashed, so that one byte anywhere shows. */
async function content(url: string): Promise<Record<string, string>> {
  const tables = await query(url, `SELECT relname FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r' ORDER BY 1`);
  const out: Record<string, string> = {};
  for (const { relname } of tables as { relname: string }[]) {
    if (relname === '_prisma_migrations') continue;
    const rows = (await query(url, `SELECT t::text AS row FROM public."${relname}" t ORDER BY 1`)) as { row: string }[];
    out[relname] = `${rows.length} ${createHash('sha256')
      .update(rows.map((r) => r.row).join('\n'))
      .digest('hex')}`;
  }
  return out;
}

beforeAll(async () => {
  const { db } = database;
  const made = await haveOneUnit(db, {
    kitchen: { contactEmail: 'chef@lantern.example', accessNotes: 'Tab\there, "quotes", \\N and\nlines; Zoë 🧊' },
  });
  userId = made.person.id;
  for (let i = 0; i < 3; i++) await havePicture(db, new Uint8Array(700_000).fill(i + 1), { thumbnail: new Uint8Array([0, 1, 255]) });
  await db.auditEntry.create({
    data: { userId, action: 'unit.edited', entity: 'Unit', entityId: made.unit.id, detail: { changed: { name: ['a', 'b'] } } },
  });
  target = withDatabase(database.url, `${databaseName(database.url)}_back`);
});
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await drop(target);
});

describe('a shop after a fire', () => {
  it('is what it was when it was backed up, to the byte, however much was written meanwhile', async () => {
    const { db } = database;
    const before = await content(database.url);
    const fleet = await whole(exportFleet({ db, actor: { userId } }));
    let writing = true;
    const writer = (async () => {
      // While it runs: each customer comes with a kitchen, so that half of one would show as a broken reference.
      for (let i = 0; writing; i++)
        await db.customer.create({ data: { name: `Meanwhile ${i}`, kitchens: { create: { name: 'K', timeZone: 'UTC' } } } });
    })();
    await new Promise((ok) => setTimeout(ok, 50));
    const rows = await backUp(database.url, file, { secret: SECRET });
    writing = false;
    await writer;
    expect([rows.StoredFile, rows.KeptPicture]).toEqual([3, 3]);

    await restore(file, target, { secret: SECRET });
    // What came meanwhile is told by its name; everything else must be as it was before.
    await query(target, `DELETE FROM "Kitchen" k USING "Customer" c WHERE k."customerId" = c.id AND c.name LIKE 'Meanwhile %'`);
    await query(target, `DELETE FROM "Customer" WHERE name LIKE 'Meanwhile %'`);
    expect(await content(target)).toEqual(before);
    const again = connect(target, 2);
    expect(await whole(exportFleet({ db: again, actor: { userId } }))).toBe(fleet);
    // Rules and counters are alive again.
    await expect(again.customer.create({ data: { name: 'After' } })).resolves.toBeTruthy();
    await expect(again.auditEntry.create({ data: { action: 'x' } })).resolves.toBeTruthy();
    await again.$disconnect();
    const [{ off }] = (await query(target, `SELECT count(*)::int AS off FROM pg_trigger WHERE NOT tgisinternal AND tgenabled <> 'O'`)) as [
      { off: number },
    ];
    expect(off).toBe(0);
  });

  it('is never written over one that is there', async () => {
    await expect(restore(file, target, { secret: SECRET })).rejects.toThrow(/already/);
  });

  it('is not made from a file that is cut, changed, without its key or of another kind', async () => {
    const elsewhere = withDatabase(database.url, `${databaseName(database.url)}_not`);
    const whole = readFileSync(file);
    const spoiled = path.join(folder, 'spoiled.rimebook');
    const flipped = Buffer.from(whole);
    flipped[Math.floor(whole.length / 2)]! ^= 1;
    for (const [bytes, secret] of [
      [whole.subarray(0, whole.length - 1000), SECRET],
      [flipped, SECRET],
      [whole, 'another key'],
      [whole, undefined],
      [Buffer.from('name,unit\n'), SECRET],
    ] as const) {
      writeFileSync(spoiled, bytes);
      await expect(restore(spoiled, elsewhere, { secret })).rejects.toThrow(/damaged|RIMEBOOK_BACKUP_KEY|no backup/);
      expect(await exists(elsewhere)).toBe(false);
    }
    expect(whole.includes(Buffer.from('Lantern'))).toBe(false);
  });
});
