import { parseArgs } from 'node:util';
import { comparePolicies, type Comparison, type Side } from './simulation/compare';
import { COSTS } from './simulation/run';

const USAGE = 'Usage: npx tsx scripts/simulate-policy.ts [--seed N] [--fleets K] [--years Y] [--json]';

function number(name: string, text: string, low: number, high: number, whole: boolean): number {
  const n = Number(text);
  if (!Number.isFinite(n) || n < low || n > high || (whole && !Number.isInteger(n))) {
    console.error(`--${name} must be a ${whole ? 'whole ' : ''}number from ${low} to ${high}, not "${text}".\n${USAGE}`);
    process.exit(2);
  }
  return n;
}

function options() {
  try {
    return parseArgs({
      options: {
        seed: { type: 'string', default: '1' },
        fleets: { type: 'string', default: '20' },
        years: { type: 'string', default: '3' },
        json: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    }).values;
  } catch (error) {
    console.error(`${(error as Error).message}\n${USAGE}`);
    process.exit(2);
  }
}

const percent = (x: number | null): string => (x === null ? 'none seen' : `${(100 * x).toFixed(1)} %`);

function table(r: Comparison): string {
  const row = (name: string, of: (s: Side) => string) => `${name.padEnd(34)}${of(r.fixed).padStart(18)}${of(r.evidence).padStart(18)}`;
  return [
    `Seed ${r.seed}: ${r.fleets} fleets, ${r.units} units, ${r.years} years. Invented fleets; costs in US dollars:`,
    `cleaning ${COSTS.cleaning}, return visit ${COSTS.returnVisit}, breakdown ${COSTS.failure}, energy ${COSTS.energyPerDayPerLnK} a day per unit of ln K lost.`,
    '',
    `${''.padEnd(34)}${'fixed quarterly'.padStart(18)}${'by evidence'.padStart(18)}`,
    row('cost per unit-year', (s) => `${s.costPerUnitYear.toFixed(0)} ± ${s.costSe.toFixed(0)}`),
    row('coils found packed', (s) => percent(s.shareFoundPacked)),
    row('cleanings per unit-year', (s) => s.cleaningsPerUnitYear.toFixed(2)),
    row('visits per unit-year', (s) => s.visitsPerUnitYear.toFixed(2)),
    row('breakdowns per unit-year', (s) => s.failuresPerUnitYear.toFixed(3)),
    '',
    `Cost saved against fixed quarterly: ${percent(r.costSaved)}`,
    `Found packed, against fixed quarterly: ${r.packedRatio === null ? 'none there' : `${r.packedRatio.toFixed(2)} times`}`,
    `80 % bands of the forecast date held ${percent(r.coverage80)} of ${r.forecasts} forecasts`,
  ].join('\n');
}

const given = options();
if (given.help) {
  console.log(USAGE);
} else {
  const seed = number('seed', given.seed, 0, 2 ** 31, true);
  const result = comparePolicies(seed, number('fleets', given.fleets, 1, 10_000, true), number('years', given.years, 0.25, 20, false));
  console.log(given.json ? JSON.stringify({ ...result, costs: COSTS }, null, 2) : table(result));
}
