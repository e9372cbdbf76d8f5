import { keysOf } from '../typed/closed-set';

/** How ln(rate) moves when somebody says that something changed: mean and sd. Judgement: a fryer about doubles what a coil breathes. */
export const SAID_CHANGE = { more: { by: Math.LN2, sd: 0.6 }, less: { by: -Math.LN2, sd: 0.6 } } as const;
export type SaidChange = keyof typeof SAID_CHANGE;
export const SAID_CHANGES = keysOf(SAID_CHANGE);
