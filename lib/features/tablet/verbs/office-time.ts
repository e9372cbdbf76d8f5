import 'server-only';

/** Less than this is the time a request takes. */
const SLACK_MS = 1000;

/**
 * When an entry was made, as far as can be known: the tablet gives the office's time by what it knew of its own clock,
 * but an entry is never later than its arrival here, nor earlier than the refresh it was based on.
 */
export function officeTime(entry: { madeAt: string; basedOn: string }, now: Date): { at: Date; correctedBy: number } {
  const made = Date.parse(entry.madeAt);
  const earliest = Math.min(Date.parse(entry.basedOn), now.getTime());
  const at = Math.min(Math.max(made, earliest), now.getTime());
  return { at: new Date(at), correctedBy: Math.abs(at - made) > SLACK_MS ? at - made : 0 };
}
