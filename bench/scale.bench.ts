import { measureGrowth } from './scale/growth';
import { measureScale, type ScaleFigures } from './scale/measure';
import type { BenchRow } from './types';

// Only where it is asked for by name: the largest shop takes minutes to make.
const SIZES = [1000, 10_000, 50_000];

const measured = new Map<number, Promise<ScaleFigures>>();
const figures = (units: number) => measured.get(units) ?? measured.set(units, measureScale(units)).get(units) ?? measureScale(units);

const GOALS: Record<string, number> = {
  due: 250, week: 300, rules: 250, book: 300, squeeze: 400, unit: 200, kitchen: 250, customers: 250, jobs: 250,
  'search, one letter': 150, 'search, common word': 150, owner: 250, ranking: 300, shop: 300, right: 300, round: 500,
}; // prettier-ignore

const page = (units: number, name: string, goal: number): BenchRow => ({
  name: `${units.toLocaleString('en-US')} units: ${name}, p95`,
  unit: 'ms',
  target: `≤ ${goal} ms`,
  run: async () => {
    const found = (await figures(units)).pages.find((p) => p.name === name);
    if (!found) throw new Error(`${name} was not measured`);
    const { p95, median, kb, statements, sql } = found;
    return {
      value: p95,
      reference: { name: 'its bare SQL', value: sql },
      detail: `median ${Math.round(median)} ms, ${Math.round(kb)} kB, ${Math.round(statements)} statements`,
    };
  },
});

const other = (units: number, name: string, unit: string, target: string, of: (f: ScaleFigures) => number): BenchRow => ({
  name: `${units.toLocaleString('en-US')} units: ${name}`,
  unit,
  target,
  run: async () => ({ value: of(await figures(units)) }),
});

/** What a page of one kitchen, person or unit reads does not grow with the shop. */
const ALONE = ['unit', 'kitchen', 'book', 'a person’s fortnight', 'round'];
let grown: ReturnType<typeof measureGrowth> | undefined;
const growth = (page: string): BenchRow => ({
  name: `1,000 → 50,000 units: what a page of one reads, ${page}`,
  unit: 'times',
  target: '≤ 1.5',
  run: async () => {
    const one = (await (grown ??= measureGrowth(1000, 50_000))).find((g) => g.page === page);
    if (!one) throw new Error(`${page} was not measured`);
    return { value: one.large / one.small, detail: `medians ${Math.round(one.small)} and ${Math.round(one.large)} ms` };
  },
});

export const rows: BenchRow[] = SIZES.flatMap((units) => [
  ...Object.entries(GOALS).map(([name, goal]) => page(units, name, goal)),
  other(units, 'export as CSV, first byte', 'ms', '≤ 300 ms', (f) => f.pages.find((p) => p.name === 'export')?.firstByte ?? NaN),
  other(units, 'export as CSV, all of it', 's', '', (f) => f.exportSeconds),
  other(units, 'memory of the server once started', 'MB', '', (f) => f.restMb),
  other(units, 'most memory of the server after all pages', 'MB', '', (f) => f.pagesMb),
  other(units, 'most memory of the server, export included', 'MB', '≤ 300 MB', (f) => f.peakMb),
  other(units, 'proposal, the first', 's', '≤ 5 s', (f) => f.plan.first),
  other(units, 'proposal, all of it', 's', '≤ 30 s', (f) => f.plan.all),
  other(units, 'weekly refit', 's', '≤ 60 s', (f) => f.refitSeconds),
]).concat(ALONE.map(growth));
