import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { compared, KNOWERS, runFleet, type Comparison, type FleetRun, type Over, type Side } from './simulation/compare';
import { COSTS } from './simulation/run';
import { WORLDS } from './simulation/worlds';

/** Seeds that starting values and prices were looked at on: they judge nothing. */
const TUNED_ON = [1, 2, 3, 4];

const USAGE = `Usage: npx tsx scripts/simulate-policy.ts [--worlds all|mild,fast,…] [--seeds 115-122] [--years Y] [--kitchens K] [--keep FILE] [--bounds] [--json]
--keep: fleets are added to FILE as they are done, and those that stand there already are not run again
--bounds: also what more knowledge would be worth, told to the product or to whoever knows all but luck
Worlds: ${WORLDS.map((w) => `${w.name} (${w.description})`).join('; ')}`;

function fail(message: string): never {
  console.error(`${message}\n${USAGE}`);
  process.exit(2);
}

function options() {
  try {
    return parseArgs({
      options: {
        worlds: { type: 'string', default: 'all' },
        seeds: { type: 'string', default: '115-122' },
        years: { type: 'string', default: '4' },
        kitchens: { type: 'string', default: '5' },
        keep: { type: 'string' },
        bounds: { type: 'boolean', default: false },
        json: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    }).values;
  } catch (error) {
    return fail((error as Error).message);
  }
}

function seedsOf(text: string): number[] {
  const m = /^(\d{1,9})(?:-(\d{1,9}))?$/.exec(text) ?? fail(`--seeds must be a number or a range such as 115-122, not "${text}".`);
  const [from, to] = [Number(m[1]), Number(m[2] ?? m[1])];
  if (to < from || to - from > 999) fail(`--seeds must run upwards, over a thousand at most.`);
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

function worldsOf(text: string) {
  if (text === 'all') return WORLDS;
  return text.split(',').map((name) => WORLDS.find((w) => w.name === name) ?? fail(`There is no world "${name}".`));
}

const percent = (x: number | null): string => (x === null ? '' : `${(100 * x).toFixed(1)} %`);

function table(r: Comparison): string {
  const line = (s: Side) =>
    s.policy.padEnd(28) +
    `${s.costPerUnitYear.toFixed(0)} ± ${s.costSe.toFixed(0)}`.padStart(14) +
    [
      percent(s.shareFoundPacked),
      s.packedPerUnitYear.toFixed(2),
      s.cleaningsPerUnitYear.toFixed(2),
      s.changesPerUnitYear.toFixed(2),
      s.failuresPerUnitYear.toFixed(3),
    ]
      .map((t) => t.padStart(11))
      .join('') +
    (s.coverage80 === null ? '' : `${percent(s.coverage80)} (${percent(s.early)} / ${percent(s.late)})`.padStart(26));
  const head = ['cost/unit-yr', '', 'packed', 'a year', 'cleanings', 'changes', 'breakdowns', '80 % dates (early / late)'];
  return [
    `${r.world}: ${r.description}. ${r.fleets} fleets, ${r.units} units, ${r.years} years`,
    ''.padEnd(28) +
      (head[0] as string).padStart(14) +
      head
        .slice(2, 7)
        .map((t) => t.padStart(11))
        .join('') +
      (head[7] as string).padStart(27),
    ...r.sides.map(line),
  ].join('\n');
}

/** Ratios of the product to a rival in each world with their standard errors, and the means of the worlds. */
function summary(all: readonly Comparison[]): string {
  const side = (c: Comparison, name: string) =>
    (c.sides.find((s) => s.policy === name) ?? c.sides.find((s) => s.policy.startsWith(name))) as Side;
  const mean = (of: (c: Comparison) => number) => all.reduce((a, c) => a + of(c), 0) / all.length;
  // Worlds share their seeds, so their errors are not independent: the mean's is told as if they moved together, which is too wide.
  const meanOver = (of: (c: Comparison) => Over): Over => ({ ratio: mean((c) => of(c).ratio), se: mean((c) => of(c).se) });
  const packed = (c: Comparison, name: string) => side(c, name).shareFoundPacked;
  const cost = {
    rule: meanOver((c) => c.cost.rule),
    known: meanOver((c) => c.cost.known),
    hindsight: meanOver((c) => c.cost.hindsight),
  };
  const row = (name: string, { rule, hindsight, known }: Comparison['cost'], ours: number, theirs: number, held: number) =>
    name.padEnd(16) +
    [rule, known, hindsight].map((o) => `${o.ratio.toFixed(3)} ± ${o.se.toFixed(3)}`.padStart(17)).join('') +
    `${percent(ours)} / ${percent(theirs)} = ${(ours / Math.max(1e-9, theirs)).toFixed(2)}`.padStart(26) +
    percent(held).padStart(12);
  return [
    `${''.padEnd(16)}${'cost: good rule'.padStart(17)}${'knows units'.padStart(17)}${'hindsight'.padStart(17)}${'packed: ours / rule'.padStart(26)}${'dates held'.padStart(12)}`,
    ...all.map((c) => row(c.world, c.cost, packed(c, 'the product'), packed(c, 'good'), side(c, 'the product').coverage80 ?? NaN)),
    row(
      'mean',
      cost,
      mean((c) => packed(c, 'the product')),
      mean((c) => packed(c, 'good')),
      mean((c) => side(c, 'the product').coverage80 ?? NaN),
    ),
    `Hindsight is the best constant interval of each unit once everything is over, luck and all: at most 1.20 of it is asked, ${cost.hindsight.ratio <= 1.2 ? 'met' : 'missed'}.`,
    '“Knows units” is a rival that is possible: the constant interval of each unit that is cheapest over four other lives of it, its rate, shape and change known and not its luck.',
    // What luck alone, and fewer packed finds, cost whoever knows the units and keeps to one interval: by knowing more nobody comes nearer to hindsight.
    ...KNOWERS.filter((name) => all.every((c) => c.sides.some((s) => s.policy === name))).map((name) => {
      const dearer = mean((c) => side(c, name).costPerUnitYear / side(c, 'best').costPerUnitYear);
      const fewer = (of: (s: Side) => number) => (mean((c) => of(side(c, name))) / mean((c) => of(side(c, 'good')))).toFixed(2);
      return `${name.padEnd(28)} over hindsight ${dearer.toFixed(3)}, packed over the rule's ${fewer((s) => s.shareFoundPacked)} a visit, ${fewer((s) => s.packedPerUnitYear)} a year`;
    }),
  ].join('\n');
}

/** Fleets of an earlier run: a stop loses none that was done. */
function keptIn(file: string | undefined): Map<string, FleetRun> {
  const lines = file && existsSync(file) ? readFileSync(file, 'utf8').split('\n') : [];
  return new Map(
    lines
      .filter(Boolean)
      .map((line) => JSON.parse(line) as FleetRun)
      .map((f) => [`${f.world} ${f.seed}`, f]),
  );
}

const given = options();
if (given.help) {
  console.log(USAGE);
} else {
  const years = Number(given.years);
  if (!(years >= 0.25 && years <= 20)) fail(`--years must be a number from 0.25 to 20, not "${given.years}".`);
  const seeds = seedsOf(given.seeds);
  const worlds = worldsOf(given.worlds);
  const kitchens = Number(given.kitchens);
  if (!(Number.isInteger(kitchens) && kitchens >= 1 && kitchens <= 50))
    fail(`--kitchens must be a whole number from 1 to 50, not "${given.kitchens}".`);
  const done: Comparison[] = [];
  if (!given.json)
    console.log(
      `Invented fleets, seeds ${given.seeds}; US dollars: cleaning ${COSTS.cleaning}, return visit ${COSTS.returnVisit}, breakdown ${COSTS.failure}, energy ${COSTS.energyPerDayPerLnK} a day per unit of ln K lost.\nSeeds ${TUNED_ON.join(', ')} set starting values and prices${seeds.some((s) => TUNED_ON.includes(s)) ? ', and are among these: this run judges nothing' : ', and are not among these'}.\n`,
    );
  const kept = keptIn(given.keep);
  const fleet = (kind: (typeof worlds)[number], seed: number): FleetRun => {
    const before = kept.get(`${kind.name} ${seed}`);
    if (before) return before;
    const run = runFleet(kind, seed, years, kitchens, given.bounds);
    if (given.keep) appendFileSync(given.keep, `${JSON.stringify(run)}\n`);
    return run;
  };
  for (const kind of worlds) {
    const fleets = seeds.map((seed) => fleet(kind, seed));
    const result = compared(kind, fleets, years);
    done.push(result);
    if (!given.json) console.log(`${table(result)}\n`);
  }
  console.log(given.json ? JSON.stringify({ seeds, years, costs: COSTS, worlds: done }, null, 2) : summary(done));
}
