import { addDays, daysBetween, localDate, type LocalDate } from '../calendar';
import type { Figure } from '../condenser';
import { posterior, type UnitHistory } from '../fouling';
import { exposureOf, type FleetBelief } from './beliefs';
import { monthlyLoss } from './fleet-cost';
import { evidenceOf, type UnitFile } from './unit-file';

/** A quarter of a year with how fast some coils fouled in it, by its own evidence alone; null where nobody looked. */
export type Season = { from: LocalDate; to: LocalDate; loss: Figure | null; coils: number; looks: number };

/** The quarter that a date is in. */
export function quarterOf(date: LocalDate): { from: LocalDate; to: LocalDate } {
  const [year = 0, month = 1] = date.split('-').map(Number);
  const first = 3 * Math.floor((month - 1) / 3) + 1;
  const day = (y: number, m: number) => localDate(`${y}-${String(m).padStart(2, '0')}-01`);
  return { from: day(year, first), to: first === 10 ? day(year + 1, 1) : day(year, first + 3) };
}

/** A coil's record of one season: from the last cleaning before it, so that the dirt of its first look is known to be new. */
function ofSeason(history: UnitHistory, from: LocalDate, to: LocalDate): { history: UnitHistory; looks: number } | null {
  const cleaned = history.events
    .flatMap((e) => (e.kind === 'cleaning' && e.on < from ? [e.on] : []))
    .sort()
    .at(-1);
  // A cleaning of more than a season ago would blame this season for the dirt of another.
  const start = cleaned && daysBetween(cleaned, from) <= 92 ? cleaned : from;
  const events = history.events.filter((e) => e.on >= start && e.on < to);
  const looks = events.filter(
    (e) => e.on >= from && ((e.kind === 'coil' && e.phase === 'before') || (e.kind === 'reading' && !e.setAside && e.phase === 'before')),
  ).length;
  return looks === 0 ? null : { history: { startedOn: start, startedClean: false, events }, looks };
}

/**
 * How fast coils fouled, season by season, latest last. Each season is judged by its own looks alone, drawn to what is usual for
 * its place where they are few, without the fleet's own seasons: what is left is what this season says.
 */
export function seasonsOf(files: readonly UnitFile[], fleet: FleetBelief, today: LocalDate, count = 8): Season[] {
  const hyper = { ...fleet.fouling, season: {} };
  const seasons: { from: LocalDate; to: LocalDate }[] = [];
  for (let at = quarterOf(today); seasons.length < count; at = quarterOf(addDays(at.from, -1))) seasons.unshift(at);
  const histories = files.map((file) => ({ file, history: evidenceOf(file).history }));
  return seasons.map(({ from, to }) => {
    const rates = histories.flatMap(({ file, history }) => {
      const own = ofSeason(history, from, to);
      if (!own) return [];
      const { rate } = posterior(own.history, exposureOf(file), hyper);
      return [{ ratePerDay: rate.mean, rateSdPerDay: rate.sd, looks: own.looks }];
    });
    return { from, to, loss: monthlyLoss(rates), coils: rates.length, looks: rates.reduce((n, r) => n + r.looks, 0) };
  });
}
