import { parseArgs } from 'node:util';
import { report } from './judge/report';
import { PARTS } from './world/templates';

// The whole table on part B: npx tsx tests/plant/judge.ts [--n 1500] [--from 0] [--part A|C]
const { values } = parseArgs({
  options: { part: { type: 'string', default: 'B' }, n: { type: 'string', default: '1500' }, from: { type: 'string', default: '0' } },
});
const part = PARTS.find((p) => p === values.part);
if (!part) {
  console.error(`--part ${PARTS.join('|')}, --n cases, --from first`);
  process.exit(2);
}
console.log(report({ part, from: Number(values.from), cases: Number(values.n) }));
