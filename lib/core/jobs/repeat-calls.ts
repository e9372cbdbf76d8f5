import { daysBetween, type LocalDate } from '../calendar';

/** A kitchen that rings again soon after somebody was there: counted against what was done then. */
export const REPEAT_WITHIN_DAYS = 30;

export type PastWork = { on: LocalDate; unitId: string; what: string };

/** What was done at the same unit within 30 days before a call, the latest first. The same day counts only if named by the caller. */
export function countsAgainst(callOn: LocalDate, unitIds: readonly string[], past: readonly PastWork[]): PastWork[] {
  return past
    .filter((w) => unitIds.includes(w.unitId) && daysBetween(w.on, callOn) >= 0 && daysBetween(w.on, callOn) <= REPEAT_WITHIN_DAYS)
    .sort((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : 0));
}
