import { localDate, type LocalDate } from '../calendar';
import { POUND_KG } from '../measures';

/**
 * When a leak rate obliges, as data with source and date. Rules change: a shop's licensed person checks the text.
 * Nothing here is legal advice, and whatever shows these figures says so.
 */

export const APPLIANCE_KINDS = ['comfort_cooling', 'commercial_refrigeration', 'industrial_process'] as const;
export type ApplianceKind = (typeof APPLIANCE_KINDS)[number];

export type LeakRule = {
  key: string;
  title: string;
  source: string;
  /** When the source was read, or that it was not. */
  read: string;
  from: LocalDate;
  /** Gases it covers: those that deplete ozone, or substitutes above a GWP. */
  covers: 'ozone_depleting' | { gwpAbove: number };
  leastChargeKg: number;
  thresholdPercent: Record<ApplianceKind, number>;
  repairDays: number;
  repairDaysWithShutdown: number;
  /** After the first verification test. */
  followUpDays: number;
  /** Added in a calendar year, % of full charge, from which a report is due by 1 March. */
  chronicPercent: number;
};

export const LEAK_RULES: readonly LeakRule[] = [
  {
    key: 'us-608',
    title: 'Clean Air Act section 608',
    source: '40 CFR 82.152, 82.157',
    read: 'by secondary sources, 2026-11-27',
    from: localDate('2019-01-01'),
    covers: 'ozone_depleting',
    leastChargeKg: 50 * POUND_KG,
    thresholdPercent: { comfort_cooling: 10, commercial_refrigeration: 20, industrial_process: 30 },
    repairDays: 30,
    repairDaysWithShutdown: 120,
    followUpDays: 10,
    chronicPercent: 125,
  },
  {
    key: 'us-aim',
    title: 'AIM Act, subsection (h)',
    source: '40 CFR 84.102, 84.106; 89 FR 82682 (11 October 2024)',
    read: 'by secondary sources, 2026-11-27',
    from: localDate('2026-01-01'),
    covers: { gwpAbove: 53 },
    leastChargeKg: 15 * POUND_KG,
    thresholdPercent: { comfort_cooling: 10, commercial_refrigeration: 20, industrial_process: 30 },
    repairDays: 30,
    repairDaysWithShutdown: 120,
    followUpDays: 10,
    chronicPercent: 125,
  },
];

/** CO2-equivalent steps of leak checks: Regulation (EU) No 517/2014 article 4, kept by (EU) 2024/573 article 5 for HFCs (secondary sources). */
const EU_STEPS: readonly { fromTonnes: number; months: number }[] = [
  { fromTonnes: 500, months: 3 },
  { fromTonnes: 50, months: 6 },
  { fromTonnes: 5, months: 12 },
];
/** Below this, a hermetically sealed and labelled unit needs no checks. */
const EU_SEALED_TONNES = 10;

/** Tonnes of CO2 that a charge stands for. */
export const co2Tonnes = (chargeKg: number, gwp: number): number => (chargeKg * gwp) / 1000;

/**
 * Months between leak checks by CO2 equivalent; twice as long where a leak detector is fitted, null where none are asked.
 */
export function leakCheckMonths(tonnes: number, unit: { hermetic: boolean; detector: boolean }): number | null {
  if (unit.hermetic && tonnes < EU_SEALED_TONNES) return null;
  const step = EU_STEPS.find((s) => tonnes >= s.fromTonnes);
  if (!step) return null;
  return unit.detector ? step.months * 2 : step.months;
}

export type RuledUnit = { chargeKg: number; ozoneDepleting: boolean; gwp: number | null; kind: ApplianceKind };

/** Rules that reach a unit on a day. Unknown GWP counts as reached: no all-clear from not knowing. */
export function rulesFor(unit: RuledUnit, on: LocalDate): LeakRule[] {
  return LEAK_RULES.filter((rule) => {
    if (on < rule.from || unit.chargeKg < rule.leastChargeKg) return false;
    if (rule.covers === 'ozone_depleting') return unit.ozoneDepleting;
    return !unit.ozoneDepleting && (unit.gwp === null || unit.gwp > rule.covers.gwpAbove);
  });
}
