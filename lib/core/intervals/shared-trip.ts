import type { CleaningCost } from './choose';
import { WEEKS } from './cycle';
import { wantedWeeks } from './optimise';
import type { UnitPolicy } from './policy';

/** A date within so many days of somebody's coming anyway can be done on the same trip. */
const SAME_TRIP_DAYS = 3;

/**
 * What a cleaning costs at each interval of `WEEKS` when somebody is due in the kitchen `alsoDue` days after it: the trip's
 * share is spared where the rule would fall within three days of such a date. Undefined where nothing could be spared.
 */
export function sharedTrip(
  policy: Pick<UnitPolicy, 'cleaningCost' | 'tripCost' | 'lateDays'>,
  alsoDue: readonly number[],
): CleaningCost | undefined {
  const spared = Math.min(policy.tripCost, policy.cleaningCost);
  if (!(spared > 0) || alsoDue.length === 0) return undefined;
  // The rule is written in whole weeks, shorter by the days that visits usually come late.
  const costs = WEEKS.map((weeks) => {
    const due = 7 * Math.floor(wantedWeeks({ riskDays: 7 * weeks, cost: null }, policy));
    const shared = due > 0 && alsoDue.some((d) => Math.abs(d - due) <= SAME_TRIP_DAYS);
    return shared ? policy.cleaningCost - spared : policy.cleaningCost;
  });
  return (k) => costs[k] ?? policy.cleaningCost;
}
