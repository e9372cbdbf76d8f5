// `npx tsx --conditions=react-server scripts/fuzz.ts [cases] [seed] [kind …]`: nonsense by seed at every door, 10,000 cases a kind unless told,
// on a database of its own. What came of a kind is put into docs/fuzz.md as soon as it is through; the other rows stay.
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { withDatabase } from '../bench/database';
import { fuzz, FUZZ, fuzzShop } from '../tests/support/fuzz/kinds';

const [cases = '10000', seed = '20261127', ...named] = process.argv.slice(2);
const FILE = path.resolve(import.meta.dirname, '../docs/fuzz.md');

/** The row of a kind, in the place of the one that stood there. */
async function keep(kind: string, cells: (string | number)[]) {
  const row = `| ${kind} | ${cells.join(' | ')} |`;
  console.log(row);
  const lines = (await readFile(FILE, 'utf8')).split('\n');
  const at = lines.findIndex((line) => line.startsWith(`| ${kind} |`));
  if (at >= 0) lines[at] = row;
  else lines.splice(lines.findIndex((line) => line.startsWith('|---')) + 1, 0, row);
  await writeFile(FILE, lines.join('\n'));
}

async function main() {
  let faults = 0;
  await withDatabase(async (db) => {
    const shop = await fuzzShop(db);
    for (const kind of Object.keys(FUZZ) as (keyof typeof FUZZ)[]) {
      if (named.length > 0 && !named.includes(kind)) continue;
      const since = performance.now();
      try {
        const { slowestMs, slowest, busiestMs, busiest, peakMb } = await fuzz(shop, kind, Number(cases), Number(seed));
        const took = Math.round((performance.now() - since) / 1000);
        await keep(kind, [cases, 0, `${Math.round(slowestMs)} (case ${slowest})`, `${Math.round(busiestMs)} (case ${busiest})`, Math.round(peakMb), took, `${seed}, ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, Node ${process.versions.node}`]); // prettier-ignore
      } catch (e) {
        faults++;
        console.error(e);
      }
    }
  });
  return faults;
}

process.exit((await main()) > 0 ? 1 : 0);
