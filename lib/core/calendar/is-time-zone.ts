import { todayIn } from './zone';

const zones = new Map<string, boolean>();
/** Whether a name is a time zone of the IANA list that this machine knows. */
export function isTimeZone(name: string): boolean {
  const hit = zones.get(name);
  if (hit !== undefined) return hit;
  let ok = /^[A-Za-z]+(\/[A-Za-z0-9_+-]+)+$|^UTC$/.test(name);
  if (ok) {
    try {
      new Intl.DateTimeFormat('en', { timeZone: name });
      todayIn(name, 0);
    } catch {
      ok = false;
    }
  }
  if (zones.size < 2000) zones.set(name, ok);
  return ok;
}
