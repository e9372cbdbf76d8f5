// The app as the end-to-end tests meet it: its own build, port and database, a copy of the demo shop.
// Playwright starts it (playwright.config.ts). Tests steer it over E2E_CONTROL_PORT, on this machine only:
//   POST /stop   POST /start   POST /reset?shop=demo|empty&clock=<ISO instant>   POST /database (its address)
import { createServer } from 'node:http';
import { ensureBuild, ensureClient, serve } from './support/app.mjs';
import { atEnd, close, closeOnSignals } from './support/closing.mjs';
import { create, databaseName, drop } from './support/databases.mjs';
import { complain } from './support/say.mjs';
import { demoFingerprint, makeDemo } from './support/shop.mjs';
import { openTestServer } from './support/test-databases.mjs';

const port = Number(process.env.E2E_PORT ?? 4301);
const controlPort = Number(process.env.E2E_CONTROL_PORT ?? port + 1);
const distDir = '.next-test';

const server = await openTestServer();
const database = server.url(`rimebook_test_e2e_${process.pid}`);
const env = {
  ...process.env,
  DATABASE_URL: database,
  NEXTAUTH_URL: `http://localhost:${port}`,
  NEXTAUTH_SECRET: 'only-for-the-end-to-end-tests-of-rimebook',
  RIMEBOOK_SET_UP_CODE: '2718-2818-2845',
  // A mail server named in .env is for the shop's own messages.
  SMTP_URL: '',
  LOG_LEVEL: process.env.LOG_LEVEL ?? 'warn',
};
let app;

const templates = {
  demo: () => server.template('e2e', demoFingerprint(), makeDemo),
  empty: () => server.migrated(),
};

async function start() {
  app ??= await serve({ port, distDir, env, onOutput: (text, isError) => isError && process.stderr.write(text) });
}

async function stop() {
  await app?.stop();
  app = undefined;
}

/** A fresh copy of a shop. @param {{ shop?: string, clock?: string }} wish `clock`: where the server's clock starts */
async function reset({ shop = 'demo', clock }) {
  const template = await (templates[shop] ?? templates.demo)();
  await stop();
  await drop(database);
  await create(database, databaseName(template));
  if (clock) env.RIMEBOOK_CLOCK = clock;
  else delete env.RIMEBOOK_CLOCK;
  await start();
}

const commands = { '/start': start, '/stop': stop, '/reset': reset, '/database': () => database };

// One command after the other, whoever asks.
let queue = Promise.resolve();
const control = createServer((request, response) => {
  const { pathname, searchParams } = new URL(request.url, 'http://localhost');
  const command = request.method === 'POST' && commands[pathname];
  if (!command) return void response.writeHead(404).end();
  queue = queue
    .then(() => command(Object.fromEntries(searchParams)))
    .then((said) => response.end(said ?? 'done'))
    .catch((error) => response.writeHead(500).end(String(error.message)));
});

atEnd(() => server.close());
atEnd(() => drop(database).catch(() => {}));
closeOnSignals();
// Playwright may be killed without a word: then nobody needs this server any more.
const parent = process.ppid;
setInterval(() => process.ppid !== parent && void close(0), 1000).unref();

try {
  await ensureClient();
  await ensureBuild({ distDir, env });
  control.listen(controlPort, '127.0.0.1');
  await reset({});
} catch (error) {
  complain(error);
  await close(1);
}
