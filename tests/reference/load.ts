import { readdirSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
// Comparisons of other rooms use entries that leave the loading of refrigerant data to their caller.
import '@/lib/core/refrigerants';
import type { Comparison } from './comparison';

/** Every comparison of every *.comparison.ts, for the gate and for the printed report alike. */
export async function loadComparisons(): Promise<Comparison[]> {
  const files = readdirSync(import.meta.dirname)
    .filter((name) => name.endsWith('.comparison.ts'))
    .sort();
  const all: Comparison[] = [];
  for (const file of files) {
    const loaded = (await import(pathToFileURL(path.join(import.meta.dirname, file)).href)) as {
      comparisons: () => Comparison[] | Promise<Comparison[]>;
    };
    all.push(...(await loaded.comparisons()));
  }
  return all;
}

export function passes(c: Comparison): boolean {
  return c.samples === c.expectedSamples && c.expectedSamples > 0 && c.worst <= c.tolerance;
}
