import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { report } from './judge/report';
import type { Case } from './world/case';
import { PARTS } from './world/templates';

// The whole table on part B: npx tsx tests/plant/judge.ts [--n 1500] [--from 0] [--part A|C|D|E|F|G|H|I|J|K|L|M|N] [--made FILE, as tests/plant/make.ts prints]
const { values } = parseArgs({
  options: {
    part: { type: 'string', default: 'B' },
    n: { type: 'string', default: '1500' },
    from: { type: 'string', default: '0' },
    made: { type: 'string' },
  },
});
const part = PARTS.find((p) => p === values.part);
if (!part) {
  console.error(`--part ${PARTS.join('|')}, --n cases, --from first`);
  process.exit(2);
}
const lines = values.made === undefined ? undefined : readFileSync(values.made, 'utf8').trim().split('\n');
const made = lines?.map((line): Case => JSON.parse(line));
console.log(report({ part, from: Number(values.from), cases: Number(values.n), made }));
