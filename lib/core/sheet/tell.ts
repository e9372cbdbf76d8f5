import type { Told } from './types';

const EXAMPLES = 3;

/** What was done without asking, gathered under one sentence each. */
export function teller() {
  const told = new Map<string, { rows: number; examples: Set<string> }>();
  return {
    say(words: string, example = '') {
      const at = told.get(words) ?? { rows: 0, examples: new Set<string>() };
      at.rows++;
      if (example && at.examples.size < EXAMPLES) at.examples.add(example.slice(0, 60));
      told.set(words, at);
    },
    all: (): Told[] => [...told].map(([words, { rows, examples }]) => ({ words, rows, examples: [...examples] })),
  };
}
