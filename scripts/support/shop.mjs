import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { backUp, restore } from './backup.mjs';
import { create, databaseName, drop, exists, query, rename, withDatabase } from './databases.mjs';
import { fingerprint } from './fingerprint.mjs';
import { migrate, migrations, pending } from './migrations.mjs';
import { inProject, keep, tsxBin } from './paths.mjs';
import { node } from './run.mjs';
import { Plain } from './say.mjs';

/** Changes with anything that the demo shop is made from. */
export const demoFingerprint = () => fingerprint(['prisma', 'lib', 'package-lock.json']);

/** Whether nobody is on file yet. */
export async function isEmpty(url) {
  const [row] = await query(url, 'select not exists (select 1 from "User") as empty');
  return row.empty;
}

/** Fill an empty, migrated database with the demo shop. @param {string} url */
async function seedDemo(url) {
  // lib/database is marked for the server; this condition is how a program outside Next says that it is one.
  const args = [tsxBin, '--conditions=react-server', inProject('prisma/seed/demo.ts')];
  return node(args, { env: { ...process.env, NODE_ENV: 'development', DATABASE_URL: url } });
}

/**
 * A migrated database at `url`, with the demo shop in it if nobody is on file and `demo` says so.
 * A new one is filled under another name first: a set-up cut short is never taken for a whole shop.
 * @returns {Promise<string>} what was done, in words
 */
export async function ensureShop(url, { demo }) {
  if (await exists(url)) {
    const done = await alone(url, async () => {
      const saved = await savedBeforeUpdate(url);
      const applied = await migrate(url);
      return applied.length > 0 ? `${saved}applied ${applied.join(', ')}` : 'up to date';
    });
    if (!demo || !(await isEmpty(url))) return done;
    await seedDemo(url);
    return `${done}, demo shop made`;
  }
  const unfinished = withDatabase(url, `${databaseName(url)}_unfinished`);
  await drop(unfinished);
  await create(unfinished);
  await (demo ? makeDemo(unfinished) : migrate(unfinished));
  await rename(unfinished, databaseName(url));
  return demo ? 'demo shop made' : 'empty shop made';
}

/** Of two app servers that start at once one updates the shop; the other waits, and finds it done. */
const UPDATING = 72707370;
async function alone(url, work) {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query('SELECT pg_advisory_lock($1)', [UPDATING]);
    return await work();
  } finally {
    await client.end();
  }
}

/**
 * A shop with something on file is backed up before its layout changes, and the change is made to a shop from that backup
 * first: where one of its steps fails, the shop keeps the whole layout it had, and what runs on it goes on.
 * @returns {Promise<string>} where the backup is, in words
 */
async function savedBeforeUpdate(url) {
  const due = await pending(url);
  if (due.length === 0 || due.length === migrations().length || (await isEmpty(url))) return '';
  const folder = process.env.RIMEBOOK_BACKUP_FOLDER ?? path.join(keep, 'backups');
  mkdirSync(folder, { recursive: true });
  const file = path.join(folder, `${databaseName(url)}-before-${due[0]}.rimebook`);
  const secret = process.env.RIMEBOOK_BACKUP_KEY;
  await backUp(url, file, { secret });
  const rehearsal = withDatabase(url, `${databaseName(url)}_rehearsal`);
  await drop(rehearsal);
  try {
    await restore(file, rehearsal, { secret });
  } catch (error) {
    throw new Plain(
      `The update was tried on a copy and does not work there. Your shop was left as it is. It was backed up to ${file}.\n${error.message}`,
    );
  } finally {
    await drop(rehearsal);
  }
  return `backed up to ${file}, `;
}

/** A database with the demo shop in it, from an empty one. */
export async function makeDemo(url) {
  await migrate(url);
  await seedDemo(url);
}

/** The demo shop's people who are on file here. @returns {Promise<{ role: string, name: string, email: string, password: string }[]>} */
export async function demoSignIns(url) {
  const file = inProject('prisma/seed/sign-ins.json');
  if (!existsSync(file)) return [];
  const all = JSON.parse(readFileSync(file, 'utf8'));
  const rows = await query(url, 'select email from "User" where active and email = any($1)', [all.map((one) => one.email)]);
  return all.filter((one) => rows.some((row) => row.email === one.email));
}
