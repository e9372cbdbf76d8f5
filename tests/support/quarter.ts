import type { QuarterUnit } from '@/lib/core/reports/quarter-for-customer';

/** A unit of which a quarter says nothing yet. */
export const quarterUnit = (over: Partial<QuarterUnit> = {}): QuarterUnit => ({
  id: 'u1',
  name: 'Reach-in',
  days: [],
  coil: [],
  cost: null,
  next: [],
  ...over,
});
