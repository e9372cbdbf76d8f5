// The app as the end-to-end tests meet it: its own build, and for each worker of the tests its own port and database, a
// copy of the demo shop. Playwright starts it (playwright.config.ts). Tests steer it over E2E_CONTROL_PORT, on this machine
// only, each worker its own lane (0, 1, …; lane n answers at E2E_PORT + n):
//   POST /stop?lane=0   POST /start   POST /reset?shop=demo|empty&clock=<ISO instant>&mail=<SMTP address>
//   POST /database (its address)   POST /second (one more app on the same database; its address)   POST /alone (ends that one)
//   POST /kill (the first, without a word)   POST /process (the first's id)
//   GET /ready
import { createServer } from 'node:http';
import { ensureBuild, ensureClient, serve } from './support/app.mjs';
import { atEnd, close, closeOnSignals } from './support/closing.mjs';
import { create, databaseName, drop } from './support/databases.mjs';
import { complain } from './support/say.mjs';
import { demoFingerprint, makeDemo } from './support/shop.mjs';
import { freePort } from './support/ports.mjs';
import { openTestServer } from './support/test-databases.mjs';

const firstPort = Number(process.env.E2E_PORT ?? 4301);
const controlPort = Number(process.env.E2E_CONTROL_PORT ?? firstPort - 1);
const distDir = '.next-test';

const server = await openTestServer();

const templates = {
  demo: () => server.template('e2e', demoFingerprint(), makeDemo),
  empty: () => server.migrated(),
};

/** One worker's shop. Its commands run one after the other. */
function openLane(lane) {
  const port = firstPort + lane;
  const database = server.url(`rimebook_test_e2e_${process.pid}_${lane}`);
  const env = {
    ...process.env,
    DATABASE_URL: database,
    NEXTAUTH_URL: `http://localhost:${port}`,
    NEXTAUTH_SECRET: 'only-for-the-end-to-end-tests-of-rimebook',
    RIMEBOOK_SET_UP_CODE: '2718-2818-2845',
    RIMEBOOK_METRICS_TOKEN: 'only-for-the-end-to-end-tests',
    // A mail server named in .env is for the shop's own messages.
    SMTP_URL: '',
    LOG_LEVEL: process.env.LOG_LEVEL ?? 'warn',
  };
  let app;
  let second;

  const onOutput = (text, isError) => isError && process.stderr.write(text);
  async function start() {
    app ??= await serve({ port, distDir, env, onOutput });
  }
  async function stop() {
    await Promise.all([app?.stop(), second?.stop()]);
    app = second = undefined;
  }
  async function startSecond() {
    await stopSecond();
    const at = await freePort();
    const address = `http://localhost:${at}`;
    second = await serve({ port: at, distDir, env: { ...env, NEXTAUTH_URL: address }, onOutput });
    return address;
  }
  async function stopSecond() {
    await second?.stop();
    second = undefined;
  }
  const end = (one) => {
    one?.child.kill('SIGKILL');
    return one?.stop();
  };
  async function kill() {
    await end(app);
    app = undefined;
  }
  /** A fresh copy of a shop. @param {{ shop?: string, clock?: string, mail?: string }} wish `clock`: where the server's clock starts */
  async function reset({ shop = 'demo', clock, mail = '' }) {
    const template = await (templates[shop] ?? templates.demo)();
    // Its database goes with it: nothing waits for it to end in order, which takes seconds.
    await Promise.all([end(app), end(second)]);
    app = second = undefined;
    await drop(database);
    await create(database, databaseName(template));
    if (clock) env.RIMEBOOK_CLOCK = clock;
    else delete env.RIMEBOOK_CLOCK;
    env.SMTP_URL = mail;
    await start();
  }
  atEnd(() => drop(database).catch(() => {}));

  const commands = {
    '/start': start,
    '/stop': stop,
    '/reset': reset,
    '/second': startSecond,
    '/alone': stopSecond,
    '/kill': kill,
    '/database': () => database,
    '/process': () => String(app?.child.pid ?? ''),
  };
  let queue = Promise.resolve();
  return {
    knows: (command) => command in commands,
    run(command, wish) {
      const done = queue.then(() => commands[command](wish));
      queue = done.catch(() => {});
      return done;
    },
  };
}

atEnd(() => server.close());
const lanes = new Map();
const laneOf = (number) => {
  if (!lanes.has(number)) lanes.set(number, openLane(number));
  return lanes.get(number);
};

const control = createServer((request, response) => {
  const { pathname, searchParams } = new URL(request.url, 'http://localhost');
  if (request.method === 'GET' && pathname === '/ready') return void response.end('ready');
  const { lane = '0', ...wish } = Object.fromEntries(searchParams);
  const shop = laneOf(Number(lane));
  if (request.method !== 'POST' || !shop.knows(pathname)) return void response.writeHead(404).end();
  shop
    .run(pathname, wish)
    .then((said) => response.end(said ?? 'done'))
    .catch((error) => response.writeHead(500).end(String(error.message)));
});

closeOnSignals();
// Playwright may be killed without a word: then nobody needs this server any more.
const parent = process.ppid;
setInterval(() => process.ppid !== parent && void close(0), 1000).unref();

try {
  await ensureClient();
  await ensureBuild({
    distDir,
    env: { ...process.env, DATABASE_URL: server.url('postgres'), NEXTAUTH_SECRET: 'only-for-building-rimebook' },
  });
  await templates.demo();
  control.listen(controlPort, '127.0.0.1');
} catch (error) {
  complain(error);
  await close(1);
}
