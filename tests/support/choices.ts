import type { UnitFacts } from '@/lib/core/choices';

/** A unit of some years, its repair and a new one as an owner might type them, and the shop's prices. Invented. */
export const facts: UnitFacts = {
  cleanings: { times: 12, years: 3 },
  callOuts: { times: 6, years: 3 },
  failures: { times: 4, years: 3 },
  fleet: { callOuts: { times: 60, years: 600 }, failures: { times: 60, years: 600 } },
  leakKgPerYear: 0.4,
  cleaningMinutes: null,
  fouling: { now: { value: 900, lo: 500, hi: 1500 }, clean: { value: 150, lo: 80, hi: 300 } },
};
export const typed = {
  coilPrice: 900,
  coilYears: 10,
  unitPrice: 6000,
  unitYears: 12,
  leftYears: 6,
  useKwh: 3000,
  newKwh: 2400,
  callOut: 260,
  refrigerantPerKg: 45,
  interest: 0.06,
};
export const shop = { energyPerKwh: 0.18, cleaning: 110, failure: 1800 };
