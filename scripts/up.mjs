// `npm run up`: from a fresh clone to a running shop. Plain Node, because it runs before anything is installed.
import './support/node-version.mjs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { atEnd, close, closeOnSignals, isClosing } from './support/closing.mjs';
import { ensureInstalled } from './support/install.mjs';
import { lock } from './support/lock.mjs';
import { keep } from './support/paths.mjs';
import { isFree } from './support/ports.mjs';
import { complain, Plain } from './support/say.mjs';

const HELP = `npm run up -- [options]

  --port N     serve on http://localhost:N instead of 3000
  --empty      a shop of your own, without the demo data; kept beside the demo shop
  --demo       back to the demo shop
  --host H     let other machines in: the address to listen on, for instance 0.0.0.0

Without --empty or --demo it opens the shop it opened last; the first time, the demo shop.
With DATABASE_URL set it uses the database named there, on a PostgreSQL server of your own.`;

function options() {
  const shape = {
    port: { type: 'string', default: '3000' },
    host: { type: 'string', default: '127.0.0.1' },
    empty: { type: 'boolean' },
    demo: { type: 'boolean' },
    help: { type: 'boolean' },
  };
  try {
    const { values } = parseArgs({ options: shape });
    const port = Number(values.port);
    if (!Number.isInteger(port) || port < 1 || port > 65535) throw new Error(`${values.port} is no port`);
    if (values.empty && values.demo) throw new Error('--empty and --demo exclude each other');
    return { ...values, port };
  } catch (error) {
    throw new Plain(`${error.message}\n\n${HELP}`);
  }
}

async function main() {
  const chosen = options();
  if (chosen.help) return void console.log(HELP);
  closeOnSignals({ say: () => console.log('\nStopping …') });

  const held = lock(path.join(keep, 'up.lock'), { port: chosen.port });
  if (!held.taken) throw new Plain(`This shop runs already: http://localhost:${held.owner.port} (process ${held.owner.pid}).`);
  atEnd(held.release);
  if (!(await isFree(chosen.port)))
    throw new Plain(
      `Port ${chosen.port} is in use by another program. Stop that one, or choose another port: npm run up -- --port ${chosen.port + 1}`,
    );

  await ensureInstalled();
  // Only now are the packages there that this needs.
  const { openShop } = await import('./support/open-shop.mjs');
  await openShop(chosen);
}

main().catch(async (error) => {
  if (!isClosing()) complain(error);
  await close(1);
});
