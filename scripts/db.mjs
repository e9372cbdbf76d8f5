// The development database: `node scripts/db.mjs start|stop|status [folder]`. The folder is .data/pg unless told.
import path from 'node:path';
import { Cluster, THROWAWAY } from './support/cluster.mjs';
import { keep } from './support/paths.mjs';
import { complain, Plain } from './support/say.mjs';

const [command = 'status', folder = path.join(keep, 'pg')] = process.argv.slice(2);

async function main() {
  const server = new Cluster(path.resolve(folder));
  const throwaway = path.basename(server.folder).startsWith('test');
  if (command === 'start') {
    await server.start(throwaway ? THROWAWAY : []);
    server.kept = true;
  } else if (command === 'stop') {
    if (await server.stop()) server.kept = false;
  } else if (command !== 'status') throw new Plain('node scripts/db.mjs start|stop|status [folder]');
  console.log((await server.isUp()) ? server.url('postgres') : 'stopped');
}

main().catch((error) => {
  complain(error);
  process.exitCode = 1;
});
