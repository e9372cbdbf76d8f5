import type { CondenserUnit } from '../../../lib/core/condenser';
import { profileOf } from '../../../lib/core/condenser/machine/profiles';
import { DEFAULT_HYPER } from '../../../lib/core/fouling';
import type { RandomStream } from '../../../lib/core/numerics/random';
import type { Story } from './stories';

/** What is really so of one unit, which nobody in the shop knows. */
export type Truth = {
  cleanRiseK: number;
  /** Fall of ln K per day, linear growth. */
  ratePerDay: number;
  /** Part of the deposit that an ordinary cleaning takes off. */
  restore: number;
  superheatK: number;
  subcoolingK: number;
  /** Days from a clear drain to one that stops: their mean, or each time the same. */
  drainDays: number;
  drainIsSteady: boolean;
  fanDiesDay: number | null;
  stuckAtEnd: number;
  /** The technicians' eyes differ this much on the deposit scale. */
  eyeSd: number;
};

/** Draws a unit's truth from the spreads the model takes for granted, times how greasy its kitchen is. */
export function drawTruth(unit: CondenserUnit, kitchenFactor: number, story: Story, today: number, random: RandomStream): Truth {
  const profile = profileOf(unit.kind, unit.application);
  const { lnRate, unitSd, restore, grades } = DEFAULT_HYPER;
  const spread = profile.cleanRiseSdK / profile.cleanRiseK;
  return {
    cleanRiseK: profile.cleanRiseK * Math.exp(random.normal(0, spread)),
    ratePerDay: Math.exp(lnRate[unit.placement] + random.normal(0, unitSd)) * kitchenFactor,
    restore: Math.min(0.995, Math.max(0.8, random.normal(restore.mean, restore.unitSd))),
    superheatK: Math.max(4, random.normal(profile.superheatK, 2)),
    subcoolingK: Math.max(1.5, random.normal(profile.subcoolingK, 1)),
    drainDays: story.drainStopsAfterDays ?? story.drainDays ?? 1300,
    drainIsSteady: story.drainStopsAfterDays !== undefined,
    fanDiesDay: story.fanDiesDaysAgo === undefined ? null : today - story.fanDiesDaysAgo,
    stuckAtEnd: story.pastSaving ?? 0,
    eyeSd: grades.sd,
  };
}
