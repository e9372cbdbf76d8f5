import { mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { ensureBuild } from './app.mjs';
import { findBrowser } from './browser.mjs';
import { inProject, keep, nextBin } from './paths.mjs';
import { countPlaywright, countVitest } from './reports.mjs';
import { node, run } from './run.mjs';
import { complain, duration, step } from './say.mjs';
import { demoFingerprint, makeDemo } from './shop.mjs';

const bin = (name) => inProject('node_modules', name);
const reports = path.join(keep, 'reports');

/** A check without tests of its own: it counts only when it fails. */
async function check(name, work, options) {
  try {
    await step(name, work, options);
    return { passed: 0, failed: 0, skipped: 0 };
  } catch (error) {
    complain(error);
    return { passed: 0, failed: 1, skipped: 0 };
  }
}

const cache = (name) => ['--cache', '--cache-strategy', 'content', '--cache-location', path.join(keep, 'cache', name)];

/**
 * @param {Promise<unknown>} [beside] what the other core does meanwhile
 * @param {(() => Promise<unknown>)[]} [more] what it goes on with while the rules are still being read
 */
const lint = (beside = Promise.resolve(), more = []) =>
  check('Lint', async () => {
    // It makes much and keeps little: with room for what is young, collecting takes a fifth of the time less.
    const rules = node(['--max-semi-space-size=64', bin('eslint/bin/eslint.js'), '.', '--max-warnings=0', ...cache('eslint')]);
    // A core each; whichever is free first takes what is left.
    const left = [
      () => node([bin('prettier/bin/prettier.cjs'), '--check', '--log-level', 'warn', ...cache('prettier'), '.']),
      () => node([bin('knip/bin/knip.js'), '--no-progress', '--no-config-hints']),
      ...more,
    ];
    const core = async (first) => {
      await first;
      for (let next = left.shift(); next; next = left.shift()) await next();
    };
    for (const { reason } of await Promise.allSettled([core(rules), core(beside)])) if (reason) throw reason;
  });

const types = (options) =>
  check(
    'Types',
    async () => {
      // Next writes the types of its routes and of CSS imports first.
      await node([nextBin, 'typegen']);
      // The compiler of the next major needs less than half of the processor; what reads types by program stays with the one before.
      await node([bin('typescript-7/bin/tsc'), '--noEmit', '--incremental', 'false']);
    },
    options,
  );

async function vitest(...projects) {
  const report = path.join(reports, `${projects.join('-')}.json`);
  rmSync(report, { force: true });
  const args = [
    'run',
    ...projects.flatMap((project) => ['--project', project]),
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ];
  const { code } = await node([bin('vitest/vitest.mjs'), ...args], { show: true, mayFail: true });
  return countVitest(report, code);
}

/** The journeys' demo shop; made once for these sources. */
const demoShop = (server) => server.template('e2e', demoFingerprint(), makeDemo);

async function endToEnd(server) {
  const ready = await check('End-to-end: browser, build and demo shop', async (note) => {
    note((await findBrowser({ light: true })).name);
    const env = { ...process.env, DATABASE_URL: server.url('postgres'), NEXTAUTH_SECRET: 'only-for-building-rimebook' };
    const built = ensureBuild({ distDir: '.next-test', env });
    await Promise.all([built, demoShop(server)]);
  });
  if (ready.failed > 0) return ready;
  const beside = await journeys('e2e', ['--grep-invert', '@alone']);
  // What times the office waits until it has the machine to itself.
  const alone = await journeys('e2e-alone', ['--grep', '@alone', '--workers', '1']);
  const flaky = [...beside.flaky, ...alone.flaky];
  for (const name of [...beside.gone, ...alone.gone]) console.log(`  the browser went away, done again: ${name}`);
  for (const name of flaky) console.log(`  a second try saved: ${name}`);
  if (flaky.length > 0) console.log(`  Retries: ${flaky.length} (goal 0). Each counts as a failure.`);
  return addUp([beside, alone]);
}

async function journeys(name, which) {
  const report = path.join(reports, `${name}.json`);
  rmSync(report, { force: true });
  const env = { ...process.env, PLAYWRIGHT_JSON_OUTPUT_NAME: report };
  const args = [bin('@playwright/test/cli.js'), 'test', '--reporter=list,json', '--output', path.join('test-results', name), ...which];
  const { code } = await run(process.execPath, args, { env, show: true, mayFail: true });
  return countPlaywright(report, code);
}

const addUp = (counts) => {
  const total = (key) => counts.reduce((sum, one) => sum + one[key], 0);
  return { passed: total('passed'), failed: total('failed'), skipped: total('skipped') };
};

/** Every step by the name that `npm test -- <name>` knows. */
export const STEPS = {
  lint: () => lint(),
  types: () => types(),
  unit: () => vitest('unit'),
  reference: () => vitest('reference'),
  integration: () => vitest('integration'),
  e2e: endToEnd,
};

/** What is run, in turn: steps that leave a core idle share the time of another one. */
function planOf(names) {
  const work = { ...STEPS };
  const shown = new Map();
  if (names.includes('lint') && names.includes('types')) {
    // The two read only and print nothing.
    const ahead = types({ live: false });
    // The rules of the linter take one core for longer than all else that is read: the shop of the journeys is made meanwhile.
    // One that cannot be made is told by the journeys, which ask for it again.
    const shop = (server) => () => demoShop(server).catch(() => {});
    work.lint = (server) => lint(ahead, names.includes('e2e') ? [shop(server)] : []);
    work.types = () => ahead;
  }
  // One long file is most of what is compared with the outside.
  const together = names.includes('unit') && names.includes('reference');
  if (together) {
    work.unit = () => vitest('unit', 'reference');
    shown.set('unit', 'unit, reference');
  }
  const left = names.filter((name) => !(together && name === 'reference'));
  return left.map((name) => ({ name: shown.get(name) ?? name, work: work[name] }));
}

/**
 * Run steps one after the other; a failure does not keep the next ones from running.
 * @param {string[]} names @param {object} server where tests make their databases
 * @returns {Promise<import('./reports.mjs').Count>} the sum
 */
export async function runSteps(names, server) {
  mkdirSync(reports, { recursive: true });
  const lines = [];
  const sum = { passed: 0, failed: 0, skipped: 0 };
  for (const { name, work } of planOf(names)) {
    const began = Date.now();
    console.log(`\n── ${name}`);
    const count = await work(server);
    for (const key of Object.keys(sum)) sum[key] += count[key];
    const counts = `${count.passed} passed, ${count.failed} failed${count.skipped > 0 ? `, ${count.skipped} skipped` : ''}`;
    lines.push(`  ${name.padEnd(16)} ${duration(Date.now() - began).padStart(12)}   ${counts}`);
  }
  console.log(['', ...lines].join('\n'));
  return sum;
}
