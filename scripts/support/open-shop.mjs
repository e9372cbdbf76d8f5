import { randomInt } from 'node:crypto';
import { createWriteStream, mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { ensureBuild, ensureClient, serve } from './app.mjs';
import { atEnd, close, isClosing } from './closing.mjs';
import { Cluster } from './cluster.mjs';
import { requireServer } from './databases.mjs';
import { keep } from './paths.mjs';
import { elapsed, step } from './say.mjs';
import { secret } from './secret.mjs';
import { DATABASES, lastShop, readEnvironmentFile } from './shop-address.mjs';
import { demoSignIns, ensureShop, isEmpty } from './shop.mjs';

/** The shop that was asked for, else the one opened last, else the demo shop. */
function whichShop({ empty, demo }) {
  const file = path.join(keep, 'shop');
  const shop = empty ? 'own' : demo ? 'demo' : lastShop();
  writeFileSync(file, shop);
  return shop;
}

/** A database server that answers. @returns {Promise<string>} the address of the shop's database */
async function ensureServer(shop) {
  const own = process.env.DATABASE_URL;
  if (own) {
    await requireServer(own);
    return own;
  }
  const cluster = new Cluster(path.join(keep, 'pg'));
  if (cluster.moved) console.log(`  PostgreSQL may not enter this folder, so its files are kept in ${cluster.folder}.`);
  await cluster.start();
  if (!cluster.kept) atEnd(() => cluster.stop());
  return cluster.url(DATABASES[shop]);
}

/** Typed by the first owner of an empty shop; another one at every start. */
const newCode = () => Array.from({ length: 3 }, () => String(randomInt(10_000)).padStart(4, '0')).join('-');

function greet({ url, people, empty, code, ownServer, shop }) {
  const lines = ['', `Rimebook runs at ${url}`, ''];
  if (empty) lines.push(`Nobody is on file yet. Create the owner: ${url}/set-up`, `Set-up code: ${code}`);
  if (people.length > 0) {
    lines.push('The demo shop, Larkspur Cold Service. Sign in as');
    for (const { role, email, password } of people) lines.push(`  ${role.padEnd(11)} ${email.padEnd(30)} ${password}`);
  }
  if (!ownServer && shop === 'demo') lines.push('', 'A shop of your own, kept beside it: npm run up -- --empty');
  if (!ownServer && shop === 'own') lines.push('', 'The demo shop is kept beside it: npm run up -- --demo');
  console.log([...lines, '', `Ready in ${elapsed()}. Ctrl-C stops everything.`, ''].join('\n'));
}

/**
 * Database, client, migrations, data, build, server: each only where something is to be done.
 * @param {{ port: number, host: string, empty?: boolean, demo?: boolean }} chosen
 */
export async function openShop(chosen) {
  readEnvironmentFile();
  mkdirSync(keep, { recursive: true });
  const ownServer = Boolean(process.env.DATABASE_URL);
  const shop = ownServer ? 'own' : whichShop(chosen);
  const url = `http://localhost:${chosen.port}`;

  const database = await step('Database server', () => ensureServer(shop));
  await step('Database client', async (note) => note((await ensureClient()) ? 'made' : 'up to date'));
  const demo = ownServer ? !chosen.empty : shop === 'demo';
  const env = {
    NEXTAUTH_URL: url,
    NEXTAUTH_SECRET: process.env.NEXTAUTH_SECRET ?? secret(),
    RIMEBOOK_SET_UP_CODE: newCode(),
    ...process.env,
    DATABASE_URL: database,
  };
  const distDir = '.next';
  // Neither needs the other, and each keeps one core busy.
  const shopReady = step('Shop', async (note) => note(await ensureShop(database, { demo })), { live: false });
  const appReady = step('App', async (note) => note((await ensureBuild({ distDir, env })) ? 'built' : 'up to date'), {
    live: false,
  });
  await Promise.all([shopReady, appReady]);

  const log = createWriteStream(path.join(keep, 'app.log'), { flags: 'a' });
  const onOutput = (text) => log.write(text);
  const app = await step('Starting', () => serve({ port: chosen.port, host: chosen.host, distDir, env, onOutput }));
  app.child.once('exit', (code) => {
    if (isClosing()) return;
    console.error(`\nThe app ended by itself (code ${code}). Its log: ${log.path}\n`);
    void close(1);
  });
  greet({ url, people: await demoSignIns(database), empty: await isEmpty(database), code: env.RIMEBOOK_SET_UP_CODE, ownServer, shop });
}
