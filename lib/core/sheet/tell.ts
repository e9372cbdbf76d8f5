import type { Assumption } from './types';

const EXAMPLES = 3;
const LINES = 5;

/** Where in the sheet: its column's name, and the row as the sheet counts. */
export type Where = { column?: string; line?: number };
export type Say = (text: string, example?: string, where?: Where) => void;

/** What was done without asking, gathered under one sentence of one column. */
export function teller() {
  const all = new Map<string, { column: string; text: string; rows: number; lines: Set<number>; examples: Set<string> }>();
  const say: Say = (text, example = '', { column = '', line } = {}) => {
    const key = `${column}\n${text}`;
    const at = all.get(key) ?? { column, text, rows: 0, lines: new Set<number>(), examples: new Set<string>() };
    at.rows++;
    if (line !== undefined && at.lines.size < LINES) at.lines.add(line);
    if (example && at.examples.size < EXAMPLES) at.examples.add(example.slice(0, 60));
    all.set(key, at);
  };
  return {
    say,
    all: (): Assumption[] => [...all.values()].map((a) => ({ ...a, lines: [...a.lines], examples: [...a.examples] })),
  };
}
