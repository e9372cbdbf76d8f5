// Kills of the office and of its database while tablets write, its clock jumping and its disk filling up now and then:
//   npx tsx scripts/kills.ts [--kills 200] [--full 6] [--seed N] [--minutes 60] [--json FILE]
// Starts its own database and office. Ends with 1 if anything acknowledged was lost, or anything stands twice. A disk is filled
// only where this account may mount a small one.
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { ensureClient } from './support/app.mjs';

// Server rooms refuse to load as browser code; this condition says that we are none.
const SERVER = '--conditions=react-server';
if (!process.execArgv.includes(SERVER)) {
  const again = spawnSync(process.execPath, [...process.execArgv, SERVER, ...process.argv.slice(1)], { stdio: 'inherit' });
  process.exit(again.status ?? 1);
}
await ensureClient();
const { allKills } = await import('../tests/kills/all-kills');

const { values } = parseArgs({
  options: {
    kills: { type: 'string', default: '200' },
    full: { type: 'string', default: '6' },
    seed: { type: 'string', default: '1' },
    minutes: { type: 'string', default: '60' },
    json: { type: 'string' },
  },
});
const [kills, full, seed, minutes] = [Number(values.kills), Number(values.full), Number(values.seed), Number(values.minutes)];
const report = await allKills({
  kills,
  full,
  seed,
  minutes,
  onKill: (done) => done % 20 === 0 && console.error(`${done} of ${2 * kills} kills`),
});
const text = JSON.stringify({ command: `npx tsx scripts/kills.ts --kills ${kills} --full ${full} --seed ${seed}`, on: new Date().toISOString().slice(0, 10), ...report }, null, 2); // prettier-ignore
if (values.json) writeFileSync(values.json, `${text}\n`);
console.log(text);
process.exit(report.lost + report.doubled + report.problems.length > 0 ? 1 : 0);
