import type { Problem } from './types';

/** Rows that cannot be filed: how many, and the commonest troubles with the first rows that have them. */
export type UnfitRows = { rows: number; causes: { column: string; message: string; rows: number; first: number[] }[] };

const CAUSES = 8;
const FIRST = 5;

export function unfitRows(problems: readonly Problem[], severity: Problem['severity'] = 'error'): UnfitRows {
  const rows = new Set<number>();
  const causes = new Map<string, UnfitRows['causes'][number]>();
  for (const p of problems) {
    if (p.severity !== severity) continue;
    rows.add(p.line);
    const key = `${p.column}\n${p.message}`;
    const cause = causes.get(key) ?? { column: p.column, message: p.message, rows: 0, first: [] };
    cause.rows++;
    if (cause.first.length < FIRST) cause.first.push(p.line);
    causes.set(key, cause);
  }
  return { rows: rows.size, causes: [...causes.values()].slice(0, CAUSES) };
}
