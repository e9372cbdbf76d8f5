// Tablets on a bad line against the real route handlers and PostgreSQL:
//   npx tsx scripts/sync-faults.ts [--seed N] [--runs K] [--from R] [--json]
// Starts its own database and office. Ends with 1 if anything was lost, doubled or unequal.
import { spawnSync } from 'node:child_process';
import { parseArgs } from 'node:util';
import { ensureClient } from './support/app.mjs';

// Server rooms refuse to load as browser code; this condition says that we are none.
const SERVER = '--conditions=react-server';
if (!process.execArgv.includes(SERVER)) {
  const again = spawnSync(process.execPath, [...process.execArgv, SERVER, ...process.argv.slice(1)], { stdio: 'inherit' });
  process.exit(again.status ?? 1);
}
await ensureClient();
const { allRuns } = await import('../tests/faults/all-runs');

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    runs: { type: 'string', default: '100' },
    from: { type: 'string', default: '0' },
    json: { type: 'boolean', default: false },
  },
});
const [seed, runs, from] = [Number(values.seed), Number(values.runs), Number(values.from)];
if (![seed, runs, from].every(Number.isInteger) || runs < 1 || from < 0) {
  console.error('--seed, --runs and --from are whole numbers, --runs at least 1.');
  process.exit(2);
}
// On a screen one line that counts up; in a file a line every fifty runs. What goes wrong is told at once.
let wrongRuns = 0;
const onRun = (done: number, problems: readonly string[]) => {
  for (const problem of problems.slice(wrongRuns)) console.error(problem);
  wrongRuns = problems.length;
  const summary = `${done} of ${runs} runs, ${wrongRuns} wrong`;
  if (process.stderr.isTTY) process.stderr.write(`\r${summary}`);
  else if (done % 50 === 0) console.error(summary);
};
const report = await allRuns({ seed, runs, from, onRun });
if (process.stderr.isTTY) process.stderr.write('\n');
if (values.json) console.log(JSON.stringify(report, null, 2));
else {
  console.log(`${report.runs} runs with seed ${seed}: ${report.entries} entries, ${report.photos} photos in ${report.seconds} s`);
  for (const [fault, count] of Object.entries(report.faults)) console.log(`  ${fault.padEnd(18)} ${count}`);
  console.log(`lost ${report.lost}, doubled ${report.doubled}, unequal ${report.unequal}`);
  for (const problem of report.problems) console.log(`  ${problem}`);
}
process.exit(report.lost + report.doubled + report.unequal > 0 ? 1 : 0);
