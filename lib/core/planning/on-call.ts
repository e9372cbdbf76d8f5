import type { Shift } from './types';

/** Overtime that an emergency may ask of whoever is at work; common practice, not a source. */
const EMERGENCY_OVERTIME_MINUTES = 180;
const MINUTE = 60_000;

/**
 * A person's shifts as an emergency finds them: longer overtime, and the hours on call. Hours on call that begin where a
 * shift ends are its overtime, for whoever works is sent on from where they are; others are shifts of their own, begun
 * at `place`.
 */
export function withOnCall(shifts: readonly Shift[], onCall: readonly Omit<Shift, 'overtimeMinutes'>[]): Shift[] {
  const longer = shifts.map((shift): Shift => {
    const usual = shift.overtimeMinutes ?? 0;
    const end = shift.hours.endMs;
    const follows = onCall.find((o) => o.hours.startMs <= end + usual * MINUTE && o.hours.endMs > end);
    const most = Math.max(usual, EMERGENCY_OVERTIME_MINUTES, follows ? (follows.hours.endMs - end) / MINUTE : 0);
    return { ...shift, overtimeMinutes: most, onCallMinutes: most - usual };
  });
  const apart = onCall.flatMap((o): Shift[] => {
    // What a shift or its overtime covers is no duty of its own.
    const covered = longer.filter(
      (s) => s.hours.startMs < o.hours.endMs && s.hours.endMs + (s.overtimeMinutes ?? 0) * MINUTE > o.hours.startMs,
    );
    const startMs = Math.max(
      o.hours.startMs,
      ...covered.filter((s) => s.hours.startMs <= o.hours.startMs).map((s) => s.hours.endMs + (s.overtimeMinutes ?? 0) * MINUTE),
    );
    const endMs = Math.min(o.hours.endMs, ...covered.filter((s) => s.hours.startMs > o.hours.startMs).map((s) => s.hours.startMs));
    return endMs > startMs ? [{ ...o, hours: { startMs, endMs }, overtimeMinutes: 0, onCall: true }] : [];
  });
  return [...longer, ...apart].sort((a, b) => a.hours.startMs - b.hours.startMs);
}
