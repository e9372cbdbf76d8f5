// `npm run restore -- FILE`: a shop from a backup, on a machine that has nothing of it.
import './support/node-version.mjs';
import { parseArgs } from 'node:util';
import path from 'node:path';
import { restore } from './support/backup.mjs';
import { Cluster } from './support/cluster.mjs';
import { databaseName, requireServer } from './support/databases.mjs';
import { ensureInstalled } from './support/install.mjs';
import { keep } from './support/paths.mjs';
import { complain, Plain } from './support/say.mjs';
import { readEnvironmentFile, shopAddress } from './support/shop-address.mjs';

const HELP = `npm run restore -- FILE [--demo]

Makes the shop's database from a backup, or from the archive of everything (a zip, from the shop's page). There must be none yet: nothing is ever overwritten.
Into DATABASE_URL, else into the private server of npm run up (--demo: as its demo shop).
An encrypted file needs RIMEBOOK_BACKUP_KEY. A backup of an older release is brought up to date.`;

async function main() {
  const { values, positionals } = parseArgs({ options: { demo: { type: 'boolean' }, help: { type: 'boolean' } }, allowPositionals: true });
  if (values.help) return void console.log(HELP);
  const [file, more] = positionals;
  if (!file || more) throw new Plain(HELP);
  await ensureInstalled();
  readEnvironmentFile();
  const cluster = process.env.DATABASE_URL ? undefined : new Cluster(path.join(keep, 'pg'));
  const started = await cluster?.start();
  try {
    await bring(path.resolve(file), shopAddress({ demo: values.demo, own: !values.demo }));
  } finally {
    if (started) await cluster.stop();
  }
}

async function bring(file, url) {
  await requireServer(url);
  // Its parts come with the install.
  const { isZip, takeIn } = await import('./support/archive-of-everything.mjs');
  const { at, rows, migrated, links } = (await isZip(file))
    ? await takeIn(file, url, new Date())
    : { links: [], ...(await restore(file, url, { secret: process.env.RIMEBOOK_BACKUP_KEY })) };
  const total = Object.values(rows).reduce((sum, n) => sum + n, 0);
  console.log(
    `${databaseName(url)}: as it was on ${at}, ${total} rows.${migrated.length > 0 ? ` Brought up to date: ${migrated.join(', ')}.` : ''}`,
  );
  if (links.length > 0)
    console.log('Passwords are not in it. Each owner chooses a new one, within seven days, at the shop’s address followed by');
  for (const { name, path: link } of links) console.log(`  ${name}: ${link}`);
}

main().catch((error) => {
  complain(error);
  process.exitCode = 1;
});
