// Applies prisma/migrations to DATABASE_URL, or to the demo shop's database; makes the database if there is none.
import path from 'node:path';
import { takeSecretFiles } from '../lib/database/secret-files.mjs';
import { Cluster } from './support/cluster.mjs';
import { requireServer } from './support/databases.mjs';
import { keep } from './support/paths.mjs';
import { complain } from './support/say.mjs';
import { ensureShop } from './support/shop.mjs';

async function target() {
  takeSecretFiles();
  const own = process.env.DATABASE_URL;
  if (own) await requireServer(own);
  if (own) return own;
  const server = new Cluster(path.join(keep, 'pg'));
  await server.start();
  return server.url('rimebook_demo');
}

async function main() {
  console.log(await ensureShop(await target(), { demo: false }));
}

main().catch((error) => {
  complain(error);
  process.exitCode = 1;
});
