import type { Verdict } from '@/lib/core/condenser/types';
import type { Mark } from './state';

/** What an estimate comes to, in the same words in the kitchen and in the office. */
export const VERDICT: Record<Verdict, Mark> = {
  clean_it: { shape: 'late', tone: 'alarm', label: 'Clean it' },
  look_first: { shape: 'ask', tone: 'ink', label: 'Look first' },
  look_elsewhere: { shape: 'ask', tone: 'alarm', label: 'Look elsewhere first' },
  watch: { shape: 'now', tone: 'ink', label: 'Watch it' },
  fine: { shape: 'done', tone: 'cold', label: 'No loss to be seen' },
  cannot_say: { shape: 'off', tone: 'soft', label: 'Can’t say' },
};
