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

/** Zones by their own names, and by their cities where only one has it. Made once: a file asks for every row. */
function namedZones(): ReadonlyMap<string, string> {
  const all = ['UTC', ...Intl.supportedValuesOf('timeZone')];
  const byCity = new Map<string, string | null>();
  for (const zone of all) {
    const city = plain(zone.slice(zone.lastIndexOf('/') + 1));
    byCity.set(city, byCity.has(city) ? null : zone);
  }
  return new Map([
    ...[...byCity].flatMap(([city, zone]) => (zone ? [[city, zone] as const] : [])),
    ...all.map((zone) => [plain(zone), zone] as const),
  ]);
}
let named: ReadonlyMap<string, string> | undefined;

/**
 * The zone that a person means by what was typed: its own name in any case, or the city in it ("Chicago", "new york").
 * @returns null where no zone is named so, or several are.
 */
export function timeZoneMeant(typed: string): string | null {
  named ??= namedZones();
  const name = typed.trim();
  return named.get(plain(name)) ?? (isTimeZone(name) ? name : null);
}
