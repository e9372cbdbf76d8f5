// Applies prisma/migrations to DATABASE_URL, or to the development database: `node scripts/migrate.mjs`.
import path from 'node:path';
import { Cluster } from './support/cluster.mjs';
import { migrate } from './support/migrations.mjs';
import { keep } from './support/paths.mjs';
import { complain } from './support/say.mjs';

async function target() {
  if (process.env.DATABASE_URL) return process.env.DATABASE_URL;
  const server = new Cluster(path.join(keep, 'pg'));
  await server.start();
  return server.url('rimebook_demo');
}

async function main() {
  const applied = await migrate(await target());
  console.log(applied.length > 0 ? `Applied ${applied.join(', ')}` : 'Nothing to apply');
}

main().catch((error) => {
  complain(error);
  process.exitCode = 1;
});
