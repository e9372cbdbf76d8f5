/** Why a rule is another than before, in the words of its history. "held" is what the findings would have done to a locked rule. */
export const RULE_CHANGE_LABEL = {
  evidence: 'By the findings',
  held: 'Held back',
  overruled: 'Overruled',
  locked: 'Locked',
  unlocked: 'Unlocked',
  edited: 'Changed by hand',
  ended: 'Ended',
} as const;
export type RuleChangeKind = keyof typeof RULE_CHANGE_LABEL;

/** What somebody does to a rule by hand, as the story of a kitchen tells it. */
export const RULE_BY_HAND_LABEL = {
  edited: 'Rule changed',
  locked: 'Rule locked',
  unlocked: 'Rule unlocked',
  overruled: 'Rule taken back',
} as const satisfies Partial<Record<RuleChangeKind, string>>;

/** What the owner made of a change. */
export const RULE_REVIEW_LABEL = { accepted: 'Kept', overruled: 'Overruled' } as const;
export type RuleReview = keyof typeof RULE_REVIEW_LABEL;
