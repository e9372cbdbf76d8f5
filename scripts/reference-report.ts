/** Prints the accuracy table: every comparison with an outside source, worst difference against tolerance. */
import { loadComparisons, passes } from '../tests/reference/load';

const comparisons = await loadComparisons();
const figure = (x: number) => (x !== 0 && (Math.abs(x) < 1e-3 || Math.abs(x) >= 1e5) ? x.toExponential(1) : x.toPrecision(3));
const rows = comparisons.map((c) => [
  passes(c) ? 'ok' : 'FAILS',
  c.id,
  c.quantity,
  `${figure(c.worst)} of ${figure(c.tolerance)} ${c.unit}`,
  c.samples === c.expectedSamples ? String(c.samples) : `${c.samples} of ${c.expectedSamples}`,
  c.source,
]);
const table = [['', 'comparison', 'quantity', 'worst of tolerance', 'samples', 'source'], ...rows];
const widths = [0, 1, 2, 3, 4].map((k) => Math.max(...table.map((row) => row[k]!.length)));
for (const row of table)
  console.log(
    row
      .map((cell, k) => cell.padEnd(widths[k] ?? 0))
      .join('  ')
      .trimEnd(),
  );

const failed = comparisons.filter((c) => !passes(c));
console.log(`\n${comparisons.length - failed.length} of ${comparisons.length} within tolerance`);
if (failed.length > 0) process.exitCode = 1;
