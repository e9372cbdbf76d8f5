import type { Assumption } from './types';

const EXAMPLES = 3;

/** What was done without asking, gathered under one sentence each. */
export function teller() {
  const byText = new Map<string, { rows: number; examples: Set<string> }>();
  return {
    say(text: string, example = '') {
      const at = byText.get(text) ?? { rows: 0, examples: new Set<string>() };
      at.rows++;
      if (example && at.examples.size < EXAMPLES) at.examples.add(example.slice(0, 60));
      byText.set(text, at);
    },
    all: (): Assumption[] => [...byText].map(([text, { rows, examples }]) => ({ text, rows, examples: [...examples] })),
  };
}
