import { z } from 'zod';
import { text } from '../values/text';
import type { ShopPolicy } from '../../core/intervals';
import { LEARNING_TASKS, type LearningTask } from '../../core/tasks';
import { celsiusToKelvin, fahrenheitToKelvin } from '../../core/measures';

const number = (low: number, high: number, message: string) => z.number({ error: 'Write a number.' }).min(low, message).max(high, message);
const money = number(0, 100_000, 'Between 0 and 100,000.');
const weeks = z.number({ error: 'Write whole weeks.' }).int('Whole weeks.').min(1, 'At least one week.').max(104, 'At most 104 weeks.');

const DISCHARGE_K = [345, 415] as const;

/** The policy as the owner types it: percents and degrees of his own. `intent`: look first, or save. */
export const PolicyForm = z
  .object({
    intent: z.enum(['look', 'save']).optional().default('look'),
    /** When the settings were read, so that nobody's change is lost. */
    seen: text(),
    riskPercent: number(1, 50, 'Between 1 and 50 %.'),
    packedRiskPercent: number(0.5, 50, 'Between 0.5 and 50 %.'),
    coolingLostPercent: number(2, 50, 'Between 2 and 50 %.'),
    discharge: number(-100, 400, 'That is no discharge temperature.'),
    degrees: z.enum(['F', 'C']),
    cleaningCost: money,
    tripCost: money,
    deepCleaningCost: money,
    comebackCost: money,
    inspectionCost: money,
    failureCost: money,
    hiddenFailureCostPerDay: money,
    energyCostPerDayPerLnK: money,
    minWeeks: weeks,
    minWeeksUnlessSevere: weeks,
    /** Longest interval by kind of task. */
    maxWeeks: z.object(Object.fromEntries(LEARNING_TASKS.map((key) => [key, weeks])) as Record<LearningTask, typeof weeks>),
    lateDays: z.number({ error: 'Write whole days.' }).int('Whole days.').min(0, 'Not below nothing.').max(60, 'At most 60 days.'),
    returnWithinDays: z.number({ error: 'Write whole days.' }).int('Whole days.').min(1, 'At least a day.').max(60, 'At most 60 days.'),
    cleanFindings: z.number({ error: 'Write a whole number.' }).int('A whole number.').min(1, 'At least one.').max(10, 'At most ten.'),
  })
  .superRefine((f, ctx) => {
    const fail = (path: string, message: string) => ctx.addIssue({ code: 'custom', path: [path], message });
    const K = dischargeK(f);
    if (!(K >= DISCHARGE_K[0] && K <= DISCHARGE_K[1]))
      fail('discharge', f.degrees === 'F' ? 'Between 161 and 287 °F.' : 'Between 72 and 142 °C.');
    if (f.tripCost > f.cleaningCost) fail('tripCost', 'The trip is a part of a cleaning’s cost, so not more than that.');
    if (f.minWeeksUnlessSevere < f.minWeeks) fail('minWeeksUnlessSevere', 'Not shorter than the shortest of all.');
    for (const key of LEARNING_TASKS)
      if (f.maxWeeks[key] < f.minWeeksUnlessSevere)
        ctx.addIssue({ code: 'custom', path: ['maxWeeks', key], message: 'The longest interval is shorter than the shortest.' });
  });
export type PolicyForm = z.output<typeof PolicyForm>;

function dischargeK({ discharge, degrees }: { discharge: number; degrees: 'F' | 'C' }): number {
  return degrees === 'C' ? celsiusToKelvin(discharge) : fahrenheitToKelvin(discharge);
}

/** The rules that a filled-in form asks for; what it does not show stays as it was. */
export function policyFromForm(before: ShopPolicy, f: PolicyForm): ShopPolicy {
  return {
    ...before,
    risk: f.riskPercent / 100,
    packedRisk: f.packedRiskPercent / 100,
    ownLimits: { coolingLost: f.coolingLostPercent / 100, dischargeK: dischargeK(f) },
    cleaningCost: f.cleaningCost,
    tripCost: f.tripCost,
    deepCleaningCost: f.deepCleaningCost,
    comebackCost: f.comebackCost,
    inspectionCost: f.inspectionCost,
    failureCost: f.failureCost,
    hiddenFailureCostPerDay: f.hiddenFailureCostPerDay,
    energyCostPerDayPerLnK: f.energyCostPerDayPerLnK,
    minWeeks: f.minWeeks,
    minWeeksUnlessSevere: f.minWeeksUnlessSevere,
    maxWeeks: f.maxWeeks,
    lateDays: f.lateDays,
    returnWithinDays: f.returnWithinDays,
    cleanFindings: f.cleanFindings,
  };
}
