/** Prints every comparison, worst difference against tolerance: first with outside sources, then regressions of the product against itself. */
import { loadComparisons, passes } from '../tests/reference/load';

const comparisons = await loadComparisons();
const figure = (x: number) => (x !== 0 && (Math.abs(x) < 1e-3 || Math.abs(x) >= 1e5) ? x.toExponential(1) : x.toPrecision(3));
const row = (c: (typeof comparisons)[number]) => [
  passes(c) ? 'ok' : 'FAILS',
  c.id,
  c.quantity,
  `${figure(c.worst)} of ${figure(c.tolerance)} ${c.unit}`,
  c.samples === c.expectedSamples ? String(c.samples) : `${c.samples} of ${c.expectedSamples}`,
  c.source,
];

function print(title: string, some: typeof comparisons) {
  const table = [['', 'comparison', 'quantity', 'worst of tolerance', 'samples', 'source'], ...some.map(row)];
  const widths = [0, 1, 2, 3, 4].map((k) => Math.max(...table.map((cells) => cells[k]?.length ?? 0)));
  const line = (cells: string[]) => cells.map((cell, k) => cell.padEnd(widths[k] ?? 0)).join('  ');
  console.log([title, ...table.map((cells) => line(cells).trimEnd()), ''].join('\n'));
}

const outside = comparisons.filter((c) => !c.regression);
print('Accuracy against outside sources', outside);
const regressions = comparisons.filter((c) => c.regression);
print('Regressions: judged by the product’s own equations or simulator, so no proof of accuracy', regressions);

const failed = comparisons.filter((c) => !passes(c));
const within = (some: typeof comparisons) => `${some.filter(passes).length} of ${some.length}`;
console.log(`${within(outside)} against outside sources and ${within(regressions)} regressions within tolerance`);
if (failed.length > 0) process.exitCode = 1;
