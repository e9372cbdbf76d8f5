import type { CylinderBalance, RepairClock } from '@/lib/core/refrigerant-book';
import { dateWords } from '@/lib/core/calendar/when';
import { formatQuantity } from '@/lib/core/measures';
import { kilogramToPound } from '@/lib/core/measures/mass';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import type { Mark } from '@/app/_ui/states/state';

/** A cylinder's gas or a year's: pounds or kilograms, whatever charges are read in. */
export const bulk = (kg: number, u: MeasureUnits, decimals = 2): string =>
  u.mass === 'oz' ? formatQuantity(kilogramToPound(kg), decimals, 'lb') : formatQuantity(kg, decimals + 1, 'kg');
export const bulkUnit = (u: MeasureUnits): string => (u.mass === 'oz' ? 'lb' : 'kg');

export const BALANCE: Record<CylinderBalance['verdict'], Mark> = {
  agrees: { shape: 'done', tone: 'cold', label: 'Scale agrees' },
  differs: { shape: 'late', tone: 'alarm', label: 'Scale differs' },
  not_weighed: { shape: 'later', tone: 'soft', label: 'Not weighed yet' },
  overfilled: { shape: 'late', tone: 'alarm', label: 'Too full' },
  below_nothing: { shape: 'late', tone: 'alarm', label: 'Below nothing' },
};

export function clockLook({ state, dueOn }: Pick<RepairClock, 'state' | 'dueOn'>): Mark {
  const by = dueOn ? ` by ${dateWords(dueOn)}` : '';
  if (state === 'below') return { shape: 'done', tone: 'soft', label: 'Below the threshold' };
  if (state === 'verified') return { shape: 'done', tone: 'cold', label: 'Repaired and verified' };
  if (state === 'overdue') return { shape: 'late', tone: 'alarm', label: `Overdue since ${dueOn ? dateWords(dueOn) : '?'}` };
  return { shape: 'now', tone: 'ink', label: state === 'repair_due' ? `Repair and first test${by}` : `Follow-up test${by}` };
}

/** Stands beside every figure that a rule is read by. */
export const LEGAL = 'The text of the rule and a licensed person decide; these figures only prepare it.';
