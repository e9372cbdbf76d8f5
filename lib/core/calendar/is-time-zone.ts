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

const plain = (name: string) =>
  name
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '_');

/**
 * The zone that a person means by what was typed: its own name in any case, or the city in it ("Chicago", "new york").
 * @returns null where no zone is named so, or several are.
 */
export function timeZoneMeant(typed: string): string | null {
  const asked = plain(typed);
  const all = ['UTC', ...Intl.supportedValuesOf('timeZone')];
  const whole = all.find((z) => plain(z) === asked);
  if (whole) return whole;
  if (isTimeZone(typed.trim())) return typed.trim();
  const [city, another] = all.filter((z) => plain(z.slice(z.lastIndexOf('/') + 1)) === asked);
  return city && !another ? city : null;
}
