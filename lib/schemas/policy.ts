import { z } from 'zod';
import type { ShopRules } from '../core/evidence';
import { GRADES } from '../core/findings/grades';

const share = (low: number, high: number, words: string) => z.coerce.number(words).min(low, words).max(high, words);
const money = z.coerce.number('Give an amount.').min(0, 'Not less than nothing.').max(100_000);
const weeks = z.coerce.number('Give whole weeks.').int('Whole weeks.').min(1, 'At least one week.').max(104, 'At most 104 weeks.');
const Limit = z.object({ name: z.string().min(1), lnK: z.number().max(-0.01).min(-3) });

/** The shop's policy of intervals, as it is kept in its settings. */
export const ShopRulesSchema = z.object({
  risk: share(0.01, 0.5, 'The chance must lie between 1 and 50 %.'),
  limits: z.array(Limit).min(1),
  cleaningCost: money,
  inspectionCost: money,
  energyCostPerDayPerLnK: money,
  failureCost: money,
  failureLimit: Limit,
  failureChancePerDay: share(0, 1, 'A chance a day, between 0 and 1.'),
  deepCleanShare: share(0, 1, 'A share between 0 and 1.'),
  hiddenFailureCostPerDay: money,
  minWeeks: weeks,
  minWeeksUnlessSevere: weeks,
  maxWeeks: z.object({ coil_cleaning: weeks, drain_inspection: weeks, evaporator_inspection: weeks }),
  maxWeeksWithoutHistory: weeks,
  loosenFactor: share(1, 1.25, 'Between 1 and 1.25: rules loosen slowly.'),
  cleanFindings: z.coerce.number().int().min(2, 'At least two clean findings running.').max(10),
  cleanGrade: z.enum(GRADES.coil.map((g) => g.grade)),
  returnWithinDays: z.coerce.number().int().min(1).max(60),
  deadBand: share(0, 0.5, 'Between 0 and 50 %.'),
  ownLimits: z.object({
    coolingLost: share(0.02, 0.5, 'Between 2 and 50 % of cooling.'),
    dischargeK: share(340, 420, 'A discharge limit between 152 and 296 °F.'),
  }),
}) satisfies z.ZodType<ShopRules>;
