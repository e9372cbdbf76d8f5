import { parseArgs } from 'node:util';
import { compareIn, type Comparison, type Side } from './simulation/compare';
import { COSTS } from './simulation/run';
import { WORLDS } from './simulation/worlds';

const USAGE = `Usage: npx tsx scripts/simulate-policy.ts [--worlds all|mild,fast,…] [--seeds 101-108] [--years Y] [--json]
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
        seeds: { type: 'string', default: '101-108' },
        years: { type: 'string', default: '4' },
        json: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    }).values;
  } catch (error) {
    return fail((error as Error).message);
  }
}

function seedsOf(text: string): number[] {
  const m = /^(\d{1,9})(?:-(\d{1,9}))?$/.exec(text) ?? fail(`--seeds must be a number or a range such as 101-108, not "${text}".`);
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
    [percent(s.shareFoundPacked), s.cleaningsPerUnitYear.toFixed(2), s.changesPerUnitYear.toFixed(2), s.failuresPerUnitYear.toFixed(3)]
      .map((t) => t.padStart(11))
      .join('') +
    (s.coverage80 === null ? '' : `${percent(s.coverage80)} (${percent(s.early)} / ${percent(s.late)})`.padStart(26));
  const head = ['cost/unit-yr', '', 'packed', 'cleanings', 'changes', 'breakdowns', '80 % dates (early / late)'];
  return [
    `${r.world}: ${r.description}. ${r.fleets} fleets, ${r.units} units, ${r.years} years`,
    ''.padEnd(28) +
      (head[0] as string).padStart(14) +
      head
        .slice(2, 6)
        .map((t) => t.padStart(11))
        .join('') +
      (head[6] as string).padStart(27),
    ...r.sides.map(line),
  ].join('\n');
}

/** Ratios of the product to a rival in each world, and their mean. */
function summary(all: readonly Comparison[]): string {
  const cost = (c: Comparison, name: string) => c.sides.find((s) => s.policy.startsWith(name)) as Side;
  const ratios = all.map((c) => {
    const [ours, rule, best] = [cost(c, 'the product'), cost(c, 'good'), cost(c, 'best')];
    return {
      world: c.world,
      rule: ours.costPerUnitYear / rule.costPerUnitYear,
      best: ours.costPerUnitYear / best.costPerUnitYear,
      packed: ours.shareFoundPacked / Math.max(1e-9, rule.shareFoundPacked),
      held: ours.coverage80 ?? NaN,
    };
  });
  const mean = (of: (r: (typeof ratios)[number]) => number) => ratios.reduce((a, r) => a + of(r), 0) / ratios.length;
  const row = (name: string, a: number, b: number, c: number, d: number) =>
    name.padEnd(16) + a.toFixed(3).padStart(14) + b.toFixed(3).padStart(14) + c.toFixed(2).padStart(14) + percent(d).padStart(12);
  return [
    `${''.padEnd(16)}${'cost: rule'.padStart(14)}${'hindsight'.padStart(14)}${'packed: rule'.padStart(14)}${'dates held'.padStart(12)}`,
    ...ratios.map((r) => row(r.world, r.rule, r.best, r.packed, r.held)),
    row(
      'mean',
      mean((r) => r.rule),
      mean((r) => r.best),
      mean((r) => r.packed),
      mean((r) => r.held),
    ),
  ].join('\n');
}

const given = options();
if (given.help) {
  console.log(USAGE);
} else {
  const years = Number(given.years);
  if (!(years >= 0.25 && years <= 20)) fail(`--years must be a number from 0.25 to 20, not "${given.years}".`);
  const seeds = seedsOf(given.seeds);
  const worlds = worldsOf(given.worlds);
  const done: Comparison[] = [];
  if (!given.json)
    console.log(
      `Invented fleets, seeds ${given.seeds}; US dollars: cleaning ${COSTS.cleaning}, return visit ${COSTS.returnVisit}, breakdown ${COSTS.failure}, energy ${COSTS.energyPerDayPerLnK} a day per unit of ln K lost.\n`,
    );
  for (const kind of worlds) {
    const result = compareIn(kind, seeds, years);
    done.push(result);
    if (!given.json) console.log(`${table(result)}\n`);
  }
  console.log(given.json ? JSON.stringify({ seeds, years, costs: COSTS, worlds: done }, null, 2) : summary(done));
}
