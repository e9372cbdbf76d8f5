// `npm run backup`: everything a shop has on file, data and pictures, in one file, while it goes on working.
import './support/node-version.mjs';
import { mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { backUp, tellBackedUp } from './support/backup.mjs';
import { databaseName, requireServer } from './support/databases.mjs';
import { inProject, keep } from './support/paths.mjs';
import { withPictures } from './support/pictures.mjs';
import { complain, Plain } from './support/say.mjs';
import { shopAddress } from './support/shop-address.mjs';

const HELP = `npm run backup -- [options]

  --folder F   where the file goes, instead of .data/backups
  --keep N     take away all but the newest N backups of this shop in that folder
  --demo       of the demo shop, instead of the one opened last

The database is the one of DATABASE_URL, else the one that npm run up opened last (its server must run).
With RIMEBOOK_BACKUP_KEY set the file is encrypted: without that key nobody can read it, you neither.`;

async function main() {
  const { values } = parseArgs({
    options: { folder: { type: 'string' }, keep: { type: 'string' }, demo: { type: 'boolean' }, help: { type: 'boolean' } },
  });
  if (values.help) return void console.log(HELP);
  const most = values.keep === undefined ? Infinity : Number(values.keep);
  if (!(most >= 1)) throw new Plain('--keep takes a number of at least 1.');
  const url = shopAddress({ demo: values.demo });
  await requireServer(url);
  const folder = path.resolve(inProject(), values.folder ?? path.join(keep, 'backups'));
  mkdirSync(folder, { recursive: true });
  const name = databaseName(url);
  const file = path.join(folder, `${name}-${new Date().toISOString().slice(0, 19).replaceAll(':', '')}.rimebook`);
  const at = new Date();
  const rows = await withPictures(url, (pictures) => backUp(url, file, { secret: process.env.RIMEBOOK_BACKUP_KEY, pictures }));
  await tellBackedUp(url, at);
  const total = Object.values(rows).reduce((sum, n) => sum + n, 0);
  const size = (statSync(file).size / 1e6).toFixed(1);
  console.log(
    `${file}: ${total} rows of ${Object.keys(rows).length} tables, ${size} MB${process.env.RIMEBOOK_BACKUP_KEY ? ', encrypted' : ''}`,
  );

  const mine = readdirSync(folder).filter((f) => f.startsWith(`${name}-`) && /-\d{4}-\d\d-\d\dT\d{6}\.rimebook$/.test(f));
  for (const old of mine.sort().reverse().slice(most)) rmSync(path.join(folder, old));
}

main().catch((error) => {
  complain(error);
  process.exitCode = 1;
});
