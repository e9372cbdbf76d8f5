import type { LocalDate } from '../calendar';
import { customerDate, customerMonths } from '../calendar/when';
import { wordsIn, type CustomerWords, type Language } from '../customer-words';
import { ASPECTS, isClean, type Aspect, type Grade } from '../findings/grades';
import { groupBy } from '../numerics/group-by';
import type { JobUrgency } from '../jobs/states';
import { sumOf } from '../evidence/fleet-cost';
import { formatBand } from '../measures';
import { coilTrend, type CoilDay } from './coil-trend';
import { capital, COST_DAYS, foundWords, nextLine, taskWords, type NextTask } from './customer-lines';
import type { Quarter } from './quarter';

type Cost = { value: number; lo: number; hi: number; currency: string };

/** What stands on file of a unit in a quarter. */
export type QuarterUnit = {
  id: string;
  name: string;
  /** In order: what was found, what was done. */
  days: { on: LocalDate; found: { aspect: Aspect; grade: Grade }[]; done: { kind: string; label: string }[]; reached: boolean }[];
  /** Before the quarter and in it. */
  coil: CoilDay[];
  /** What the dirt was costing a day when it was read last in the quarter, before it was cleaned. */
  cost: (Cost & { on: LocalDate }) | null;
  next: NextTask[];
};
export type QuarterKitchen = {
  id: string;
  name: string;
  visits: LocalDate[];
  /** Booked: the next one. */
  nextVisit: LocalDate | null;
  /** Jobs that were finished in the quarter. */
  finished: number;
  jobs: { unitNames: string[]; what: string; urgency: JobUrgency }[];
  units: QuarterUnit[];
};

/** A quarter as the customer reads it, in one language. */
export type QuarterReport = {
  language: Language;
  title: string;
  lead: string[];
  kitchens: {
    id: string;
    name: string;
    lines: string[];
    units: { id: string; name: string; lines: string[]; next: string[] }[];
    work: { unit: string; what: string; soon: string; urgency: JobUrgency }[];
  }[];
};

export function quarterForCustomer(
  customer: string,
  quarter: Quarter,
  kitchens: readonly QuarterKitchen[],
  language: Language,
): QuarterReport {
  const say = wordsIn(language);
  const visits = kitchens.reduce((n, k) => n + k.visits.length, 0);
  const open = kitchens.reduce((n, k) => n + k.jobs.length, 0);
  const units = kitchens.flatMap((k) => k.units);
  return {
    language,
    title: say.quarter.title(customer, customerMonths(quarter.startsOn, language)),
    lead: [
      say.quarter.lead(visits, kitchens.length),
      ...costLines(units, say),
      open > 0 ? say.quarter.open(open) : say.quarter.nothingOpen,
      ...(units.some((u) => u.cost && u.cost.lo > 0) ? [say.bands] : []),
    ],
    kitchens: kitchens.map((k) => ({
      id: k.id,
      name: k.name,
      lines: kitchenLines(k, say, language),
      units: k.units.map((u) => ({
        id: u.id,
        name: u.name,
        lines: unitLines(u, say, language),
        next: u.next.map((n) => nextLine(n, say, language)),
      })),
      work: k.jobs.map((j) => ({ unit: j.unitNames.join(', '), what: j.what, soon: say.job[j.urgency], urgency: j.urgency })),
    })),
  };
}

function kitchenLines(k: QuarterKitchen, say: CustomerWords, language: Language): string[] {
  const day = (on: LocalDate) => customerDate(on, language);
  return [
    k.visits.length > 0 ? say.quarter.visits(k.visits.map(day)) : say.quarter.noVisit,
    ...(k.finished > 0 ? [say.quarter.finished(k.finished)] : []),
    ...costLines(k.units, say),
    ...(k.nextVisit ? [say.quarter.nextVisit(day(k.nextVisit))] : []),
  ];
}

/** What the dirt of several units was costing in 30 days, as it was met last. How their bands are added: `sumOf`. */
function costLines(units: readonly QuarterUnit[], say: CustomerWords): string[] {
  const read = units.flatMap((u) => u.cost ?? []);
  const [first] = read;
  if (!first || read.some((c) => c.currency !== first.currency)) return [];
  const month = (x: number) => COST_DAYS * Math.max(0, x);
  const sum = sumOf(read.map((c) => ({ value: month(c.value), lo: month(c.lo), hi: month(c.hi) })));
  if (!sum || sum.hi <= 0) return [];
  const { value, lo, hi } = sum;
  const many = [read.length, units.length] as const;
  return lo > 0
    ? [say.quarter.costing(formatBand(value, lo, hi, first.currency, 1), ...many)]
    : [say.quarter.costingAtMost(`${hi.toFixed(1)} ${first.currency}`, ...many)];
}

/** What was found and done on a day; null where the unit could not be got to. */
function dayWords({ found, done, reached }: QuarterUnit['days'][number], say: CustomerWords): string | null {
  if (!reached) return null;
  const bad = ASPECTS.flatMap((aspect) =>
    found.filter((f) => f.aspect === aspect && !isClean(aspect, f.grade)).flatMap((f) => foundWords(say, aspect, f.grade) ?? []),
  );
  const said = bad.length > 0 ? bad.join(' ') : found.length > 0 ? say.quarter.allSound : '';
  return [said, done.length > 0 ? say.done(done.map((t) => taskWords(say, t))) : ''].filter(Boolean).join(' ');
}

/** A line for each thing that was found and done, with every day it was so: a quarter of sound weeks is one line. */
function unitLines(u: QuarterUnit, say: CustomerWords, language: Language): string[] {
  const days = groupBy(u.days, (d) => dayWords(d, say));
  const lines = [...days].map(([text, on]) => {
    const when = on.map((d) => customerDate(d.on, language)).join('; ');
    return text === null ? say.quarter.notReached(when) : `${capital(when)}: ${text}`;
  });
  if (lines.length === 0) return [say.quarter.notSeen];
  return [...lines, ...trendLines(u.coil, say), ...costOf(u, say, language)];
}

function trendLines(coil: readonly CoilDay[], say: CustomerWords): string[] {
  if (coil.every((d) => d.found === null)) return [];
  const trend = coilTrend(coil);
  if (trend.is === 'cant_say') return [say.quarter.trend.cantSay];
  return [say.quarter.trend[trend.is](...trend.days)];
}

function costOf({ cost }: QuarterUnit, say: CustomerWords, language: Language): string[] {
  if (!cost || cost.hi <= 0) return [];
  const day = customerDate(cost.on, language);
  if (cost.lo <= 0) return [say.quarter.unitAtMost(day, `${(cost.hi * COST_DAYS).toFixed(1)} ${cost.currency}`)];
  const figure = formatBand(cost.value * COST_DAYS, cost.lo * COST_DAYS, cost.hi * COST_DAYS, cost.currency, 1);
  return [say.quarter.unitCosting(day, figure)];
}
