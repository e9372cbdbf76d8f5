// `npx tsx --conditions=react-server scripts/fuzz.ts [cases] [seed]`: nonsense by seed at every door, 10,000 cases a kind unless told,
// on a database of its own. What came of it is kept in docs/fuzz.md.
import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { withDatabase } from '../bench/database';
import { fuzz, FUZZ, fuzzShop } from '../tests/support/fuzz/kinds';

const [cases = 10_000, seed = 20261127] = process.argv.slice(2).map(Number);

async function main() {
  const lines: string[] = [];
  await withDatabase(async (db) => {
    const shop = await fuzzShop(db);
    for (const kind of Object.keys(FUZZ) as (keyof typeof FUZZ)[]) {
      const since = performance.now();
      const { slowestMs, slowest, peakMb } = await fuzz(shop, kind, cases, seed);
      const took = Math.round((performance.now() - since) / 1000);
      lines.push(`| ${kind} | ${cases} | 0 | ${Math.round(slowestMs)} (case ${slowest}) | ${Math.round(peakMb)} | ${took} |`);
      console.log(lines.at(-1));
    }
  });
  const head = `# Nonsense by seed\n\nSeed ${seed}, ${new Date().toISOString().slice(0, 10)}, Node ${process.versions.node}. An answer in words or a result counts as answered; anything else ends the run with\nthe case's number. Asked: none unanswered, none over 1,000 ms, memory that stays.\n\n| kind | cases | unanswered | slowest, ms | most memory, MB | all, s |\n|---|---|---|---|---|---|\n`;
  await writeFile(path.resolve(import.meta.dirname, '../docs/fuzz.md'), `${head}${lines.join('\n')}\n`);
}

await main();
process.exit();
