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
  /** Inspections once the threshold was passed, by full charge; they end after a year (four quarters) below it. */
  inspections: readonly { fromKg: number; everyMonths: number }[];
  /** Added in a calendar year, % of full charge, from which a report is due by 1 March. */
  chronicPercent: number;
  chronicSource: string;
};

/** Every three months from 500 lb, once a year below (82.157(g), 84.106(g), for commercial refrigeration). */
const inspectionsFrom = (leastPounds: number) => [
  { fromKg: 500 * POUND_KG, everyMonths: 3 },
  { fromKg: leastPounds * POUND_KG, everyMonths: 12 },
];

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
    inspections: inspectionsFrom(50),
    chronicPercent: 125,
    chronicSource: '40 CFR 82.157(j)',
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
    inspections: inspectionsFrom(15),
    chronicPercent: 125,
    chronicSource: '40 CFR 84.106(j)',
  },
];

/** How often an EU leak check is asked, by tonnes of CO2 or by kilograms of a gas that is counted by its mass. */
export type CheckRule = {
  key: string;
  title: string;
  source: string;
  read: string;
  from: LocalDate;
  /** Last day it counted; null while it does. */
  until: LocalDate | null;
  steps: readonly { tonnes: number; months: number }[];
  /** Unsaturated gases (annex II, section 1), kg; null where the rule had none. */
  byMass: readonly { kg: number; months: number }[] | null;
  /** Below these a hermetically sealed and labelled unit needs no checks. */
  sealedTonnes: number;
  sealedKg: number;
};

const TONNES = [
  { tonnes: 500, months: 3 },
  { tonnes: 50, months: 6 },
  { tonnes: 5, months: 12 },
] as const;

export const CHECK_RULES: readonly CheckRule[] = [
  {
    key: 'eu-517-2014',
    title: 'EU leak checks, until March 2024',
    source: 'Regulation (EU) No 517/2014, article 4',
    read: 'by secondary sources, 2026-11-27',
    from: localDate('2015-01-01'),
    until: localDate('2024-03-10'),
    steps: TONNES,
    byMass: null,
    sealedTonnes: 10,
    sealedKg: 0,
  },
  {
    key: 'eu-2024-573',
    title: 'EU leak checks',
    source: 'Regulation (EU) 2024/573, article 5',
    read: 'by secondary sources, those by mass from memory, 2026-11-27',
    from: localDate('2024-03-11'),
    until: null,
    steps: TONNES,
    byMass: [
      { kg: 100, months: 3 },
      { kg: 10, months: 6 },
      { kg: 1, months: 12 },
    ],
    sealedTonnes: 10,
    sealedKg: 2,
  },
];

/** The rule on leak checks of a day. */
const checkRuleOn = (on: LocalDate): CheckRule | null =>
  CHECK_RULES.find((r) => r.from <= on && (r.until === null || on <= r.until)) ?? null;

/** Gases alone in annex II, section 1 that are filed here; a blend with an HFC counts by its tonnes. */
const BY_MASS: ReadonlySet<string> = new Set(['R1234yf', 'R1234ze(E)']);

/** Tonnes of CO2 that a charge stands for. */
export const co2Tonnes = (chargeKg: number, gwp: number): number => (chargeKg * gwp) / 1000;

export type CheckedUnit = { refrigerant: string; chargeKg: number; gwp: number | null; hermetic: boolean; detector: boolean };

/**
 * Months between leak checks on a day; twice as long where a leak detector is fitted. Null where none are asked, or
 * where neither mass nor a GWP can say.
 */
export function leakCheckMonths(unit: CheckedUnit, on: LocalDate): number | null {
  const rule = checkRuleOn(on);
  if (!rule) return null;
  const months = BY_MASS.has(unit.refrigerant) ? monthsByMass(rule, unit) : monthsByTonnes(rule, unit);
  return months === null ? null : unit.detector ? months * 2 : months;
}

function monthsByMass({ byMass, sealedKg }: CheckRule, { chargeKg, hermetic }: CheckedUnit): number | null {
  if (hermetic && chargeKg < sealedKg) return null;
  return byMass?.find((s) => chargeKg >= s.kg)?.months ?? null;
}

function monthsByTonnes({ steps, sealedTonnes }: CheckRule, { chargeKg, gwp, hermetic }: CheckedUnit): number | null {
  if (gwp === null) return null;
  const tonnes = co2Tonnes(chargeKg, gwp);
  if (hermetic && tonnes < sealedTonnes) return null;
  return steps.find((s) => tonnes >= s.tonnes)?.months ?? null;
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

/** Months between inspections of a unit that passed the threshold. */
export const inspectionMonths = (rule: LeakRule, chargeKg: number): number | null =>
  rule.inspections.find((i) => chargeKg >= i.fromKg)?.everyMonths ?? null;
