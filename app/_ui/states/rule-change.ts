import type { RuleChangeKind } from '@/lib/core/intervals/changes';
import type { Shape } from './state';

/** The shape beside the word for what happened to a rule. */
export const RULE_CHANGE_SHAPE: Record<RuleChangeKind, Shape> = {
  evidence: 'now',
  held: 'held',
  overruled: 'ask',
  locked: 'held',
  unlocked: 'later',
  edited: 'done',
  ended: 'off',
};
