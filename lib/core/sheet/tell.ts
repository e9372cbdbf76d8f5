import type { Assumption } from './types';

const EXAMPLES = 3;

/** What was done without asking, gathered under one sentence each. */
export function teller() {
  const byMessage = new Map<string, { rows: number; examples: Set<string> }>();
  return {
    say(words: string, example = '') {
      const at = byMessage.get(words) ?? { rows: 0, examples: new Set<string>() };
      at.rows++;
      if (example && at.examples.size < EXAMPLES) at.examples.add(example.slice(0, 60));
      byMessage.set(words, at);
    },
    all: (): Assumption[] => [...byMessage].map(([words, { rows, examples }]) => ({ words, rows, examples: [...examples] })),
  };
}
