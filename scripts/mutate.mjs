// `npm run mutate -- ROOM… [--sample 150]`: plants small mistakes in rooms' code, one at a time, and counts those that the tests
// of each notice. Too slow for `npm test`. A sample draws that many of each room's, always the same ones, and gives the score its
// interval. Rooms of one kind of tests share a run: the tests are gone through once, then one process meets mistake after mistake.
// What was found is kept in .data/mutation as it is found, so a second run looks only at what changed.
// The last scores stand in docs/mutation.json; `npm run mutate` alone lists them.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { ROOMS, roomOf } from './support/mutation-rooms.mjs';
import { interval, plantOnly } from './support/mutation-sample.mjs';
import { keep } from './support/paths.mjs';
import { openTestServer } from './support/test-databases.mjs';

const SCORES = 'docs/mutation.json';
const folder = path.join(keep, 'mutation');
const scores = existsSync(SCORES) ? JSON.parse(readFileSync(SCORES, 'utf8')) : {};
const options = { sample: { type: 'string' }, seed: { type: 'string', default: '1' } };
const { values, positionals: asked } = parseArgs({ allowPositionals: true, options });
const unknown = asked.filter((room) => !(room in ROOMS));

if (asked.length === 0 || unknown.length > 0) list();
else {
  for (const project of ['unit', 'integration']) {
    const rooms = asked.filter((room) => (ROOMS[room].project ?? 'unit') === project);
    if (rooms.length > 0) await mutate(project, rooms);
  }
}

function list() {
  if (unknown.length > 0) console.log(`There is no room ${unknown.join(', ')}.`);
  for (const [room, { goal }] of Object.entries(ROOMS))
    console.log(`${room.padEnd(22)} ${scores[room] ? told(scores[room]) : 'not measured'} (goal ${goal} %)`);
  process.exitCode = unknown.length > 0 ? 1 : 0;
}

function told({ score, mistakes, of = mistakes, between, on }) {
  const drawn = of > mistakes ? ` drawn from ${of} (${between.join('–')} %)` : '';
  return `${score} % of ${mistakes}${drawn}, ${on}`;
}

async function mutate(project, rooms) {
  mkdirSync(folder, { recursive: true });
  const run = path.join(folder, `${project}-${process.pid}`);
  const mistakesFile = `${run}.json`;
  // Each process that Stryker starts finds it running, with the layout of today.
  const server = project === 'integration' ? await openTestServer() : undefined;
  await server?.migrated();
  process.env.DATABASE_URL = server?.url('postgres') ?? '';
  process.env.MUTATE_TESTS = [...new Set(rooms.flatMap((room) => ROOMS[room].tests))].join(',');
  process.env.MUTATE_PROJECT = project;
  process.env.MUTATE_MISTAKES = mistakesFile;
  process.env.MUTATE_FOUND = path.join(folder, 'found.jsonl');
  plantOnly(Number(values.sample ?? Infinity), values.seed, roomOf, (mistakes) => writeFileSync(mistakesFile, JSON.stringify(mistakes)));
  try {
    const results = await new Stryker({
      packageManager: 'npm',
      testRunner: 'kept',
      plugins: [path.resolve('scripts/support/mutation-runner.mjs')],
      mutate: rooms.flatMap((room) => ROOMS[room].code),
      coverageAnalysis: 'perTest',
      concurrency: Number(process.env.MUTATE_WORKERS ?? 1),
      tempDirName: `${run}-tmp`,
      ignorePatterns: ['.data', '.next', '.next-test', 'docs', 'public', 'test-results', 'playwright-report', 'bench'],
      reporters: ['progress-append-only', 'html'],
      htmlReporter: { fileName: `${run}.html` },
      // Types are not looked at here, and some tests read the code as text.
      disableTypeChecks: false,
      // What never ends is met by its count; this is for a machine that other work slows, where a timeout would pass for noticed.
      timeoutMS: 120_000,
      dryRunTimeoutMinutes: 60,
      logLevel: 'warn',
    }).runMutationTest();
    for (const room of rooms)
      keepScore(
        room,
        results.filter((m) => roomOf(path.relative('.', m.fileName)) === room),
      );
  } finally {
    await server?.close();
  }
}

function keepScore(room, results) {
  const count = (...status) => results.filter((m) => status.includes(m.status)).length;
  const noticed = count('Killed', 'Timeout');
  const mistakes = noticed + count('Survived', 'NoCoverage');
  const of = mistakes + results.filter((m) => m.statusReason === 'not drawn').length;
  const tenth = (percent) => Math.round(10 * percent) / 10;
  const score = mistakes > 0 ? tenth((100 * noticed) / mistakes) : null;
  for (const m of results.filter((one) => one.status === 'Survived' || one.status === 'NoCoverage'))
    console.log(
      `${path.relative('.', m.fileName)}:${m.location.start.line}:${m.location.start.column} ${m.status} ${m.mutatorName}: ${m.replacement?.replace(/\s+/g, ' ').slice(0, 100)}`,
    );
  const untested = count('NoCoverage');
  const on = new Date().toISOString().slice(0, 10);
  // Another room may have been measured beside this one.
  const others = existsSync(SCORES) ? JSON.parse(readFileSync(SCORES, 'utf8')) : {};
  const mine = { score, noticed, mistakes, of, between: interval(noticed, mistakes, of).map(tenth), untested, on };
  console.log(`${room}: ${noticed} noticed, ${told(mine)} (goal ${ROOMS[room].goal} %)`);
  const sorted = Object.fromEntries(Object.entries({ ...others, [room]: mine }).sort(([a], [b]) => a.localeCompare(b)));
  writeFileSync(SCORES, `${JSON.stringify(sorted, null, 2)}\n`);
}
