// `npm run bench [name ...]`: every row of bench/*.bench.ts, measured one after the other on this machine.
// Names choose the files whose name contains one of them.
import { readdir } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { BenchRow } from '../bench/types';
import { ensureClient } from './support/app.mjs';

const folder = path.resolve(import.meta.dirname, '../bench');
const asked = process.argv.slice(2);
/** Measured only when asked for by name: they take many minutes. */
const LONG = new Set(['scale.bench.ts']);

/** Three significant digits, without an exponent where it can be helped. */
function figure(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  const size = Math.abs(value);
  if (size >= 1000) return Math.round(value).toLocaleString('en-US');
  return String(Number(value.toPrecision(3)));
}

async function rowsOf(file: string): Promise<BenchRow[]> {
  const { rows } = (await import(pathToFileURL(path.join(folder, file)).href)) as { rows?: BenchRow[] };
  if (!rows) throw new Error(`${file} exports no rows`);
  return rows;
}

/** One line of the table: name, value, unit, target, and how many times the reference it is. */
async function measure({ name, unit, target = '', run }: BenchRow): Promise<string[]> {
  const { value, reference, detail } = await run();
  const ratio = reference ? `${figure(value / reference.value)} × ${reference.name} (${figure(reference.value)})` : '';
  return [name, figure(value), unit, target, [ratio, detail].filter(Boolean).join('; ')];
}

const HEAD = ['name', 'value', 'unit', 'target', 'ratio to reference'];

async function main() {
  await ensureClient();
  const files = (await readdir(folder)).filter((name) => name.endsWith('.bench.ts')).sort();
  const chosen = files.filter((name) => (asked.length === 0 ? !LONG.has(name) : asked.some((part) => name.includes(part))));
  const lines: string[][] = [];
  let failed = 0;
  for (const file of chosen)
    for (const row of await rowsOf(file)) {
      process.stderr.write(`${file}: ${row.name} …\n`);
      try {
        lines.push(await measure(row));
      } catch (error) {
        failed++;
        console.error(error);
        lines.push([row.name, 'failed', row.unit, row.target ?? '', '']);
      }
    }
  const widths = HEAD.map((title, i) => Math.max(...[HEAD, ...lines].map((line) => (line[i] ?? title).length)));
  const draw = (line: string[]) =>
    line
      .map((cell, i) => (i === 1 ? cell.padStart(widths[i] ?? 0) : cell.padEnd(widths[i] ?? 0)))
      .join(' | ')
      .trimEnd();
  const [cpu] = os.cpus();
  console.log(`\nNode ${process.versions.node}, ${os.cpus().length} × ${cpu?.model.trim() ?? 'unknown processor'}\n`);
  console.log([draw(HEAD), widths.map((width) => '-'.repeat(width)).join('-|-'), ...lines.map(draw)].join('\n'));
  if (failed > 0) process.exitCode = 1;
}

await main();
// Pools and workers that a row left open must not keep the program alive.
process.exit();
