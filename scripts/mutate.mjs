// `npm run mutate -- ROOM… [--sample 150]`: plants small mistakes in a room's code, one at a time, and counts those that its
// tests notice. Too slow for `npm test`. A sample draws that many of all, always the same ones, and gives the score its
// interval. What was found before is kept in .data/mutation, so a second run looks only at what changed.
// The last scores stand in docs/mutation.json; `npm run mutate` alone lists them.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { ROOMS } from './support/mutation-rooms.mjs';
import { interval, plantOnly } from './support/mutation-sample.mjs';
import { keep } from './support/paths.mjs';

const SCORES = 'docs/mutation.json';
const folder = path.join(keep, 'mutation');
const scores = existsSync(SCORES) ? JSON.parse(readFileSync(SCORES, 'utf8')) : {};
const options = { sample: { type: 'string' }, seed: { type: 'string', default: '1' } };
const { values, positionals: asked } = parseArgs({ allowPositionals: true, options });
const unknown = asked.filter((room) => !(room in ROOMS));

if (asked.length === 0 || unknown.length > 0) list();
else {
  if (values.sample) plantOnly(Number(values.sample), values.seed);
  for (const room of asked) await mutate(room);
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

/** What went unnoticed is tried again: that a new test meets a table made when the code is loaded is not seen by what it calls. */
function forgetUnnoticed(file) {
  if (!existsSync(file)) return;
  const report = JSON.parse(readFileSync(file, 'utf8'));
  for (const of of Object.values(report.files)) of.mutants = of.mutants.filter((m) => m.status !== 'Survived' && m.status !== 'NoCoverage');
  writeFileSync(file, JSON.stringify(report));
}

async function mutate(room) {
  const { code, tests, project = 'unit', goal } = ROOMS[room];
  mkdirSync(folder, { recursive: true });
  process.env.MUTATE_TESTS = tests.join(',');
  process.env.MUTATE_PROJECT = project;
  const incrementalFile = path.join(folder, `${room}.json`);
  forgetUnnoticed(incrementalFile);
  const results = await new Stryker({
    packageManager: 'npm',
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'vitest.mutate.config.ts', related: false },
    mutate: code,
    coverageAnalysis: 'perTest',
    concurrency: Number(process.env.MUTATE_WORKERS ?? 1),
    incremental: true,
    incrementalFile,
    tempDirName: path.join(folder, `tmp-${room}`),
    ignorePatterns: ['.data', '.next', '.next-test', 'docs', 'public', 'test-results', 'playwright-report', 'tests/e2e', 'bench'],
    reporters: ['progress-append-only', 'html'],
    htmlReporter: { fileName: path.join(folder, `${room}.html`) },
    // Types are not looked at here, and some tests read the code as text.
    disableTypeChecks: false,
    thresholds: { high: goal, low: goal, break: null },
    timeoutMS: 20_000,
    logLevel: 'warn',
  }).runMutationTest();
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
  console.log(`${room}: ${noticed} noticed, ${told(mine)} (goal ${goal} %)`);
  const sorted = Object.fromEntries(Object.entries({ ...others, [room]: mine }).sort(([a], [b]) => a.localeCompare(b)));
  writeFileSync(SCORES, `${JSON.stringify(sorted, null, 2)}\n`);
}
