import type { Verdict } from '@/lib/core/condenser/types';
import type { Shape } from './state';

/** What an estimate comes to, in the same words in the kitchen and in the office. */
export const VERDICT: Record<Verdict, { shape: Shape; tone: 'ink' | 'cold' | 'alarm' | 'soft'; words: string }> = {
  clean_it: { shape: 'late', tone: 'alarm', words: 'Clean it' },
  look_first: { shape: 'ask', tone: 'ink', words: 'Look first' },
  look_elsewhere: { shape: 'ask', tone: 'alarm', words: 'Look elsewhere first' },
  watch: { shape: 'now', tone: 'ink', words: 'Watch it' },
  fine: { shape: 'done', tone: 'cold', words: 'No loss to be seen' },
  cannot_say: { shape: 'off', tone: 'soft', words: 'Can’t say' },
};
