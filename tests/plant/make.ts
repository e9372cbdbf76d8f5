import { parseArgs } from 'node:util';
import { makeCase } from './world/case';
import { STATES, type State } from './world/states';
import { PARTS } from './world/templates';

// Cases as JSON lines: npx tsx tests/plant/make.ts --part A --n 500 [--from 0] [--state gas] [--kitchen]
const { values } = parseArgs({
  options: {
    part: { type: 'string', default: 'A' },
    n: { type: 'string', default: '100' },
    from: { type: 'string', default: '0' },
    state: { type: 'string' },
    kitchen: { type: 'boolean', default: false },
  },
});

const part = PARTS.find((p) => p === values.part);
const state = STATES.find((s) => s === values.state) satisfies State | undefined;
if (!part || (values.state && !state)) {
  console.error(`--part ${PARTS.join('|')}, --n, --from, --state ${STATES.join('|')}, --kitchen`);
  process.exit(2);
}
const from = Number(values.from);
let tripped = 0;
for (let n = from; n < from + Number(values.n); n++) {
  const found = makeCase(part, n, { state, kitchen: values.kitchen });
  if (found) console.log(JSON.stringify(found));
  else tripped++;
}
console.error(`${tripped} of ${values.n} would not stand and were left out`);
