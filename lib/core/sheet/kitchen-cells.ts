import { readPosition, type Position } from '../position';
import { readWeekHours, writeWeekHours } from '../hours';
import { alike, phone } from './names';
import type { SheetRow } from './rows';

type Out = Partial<Record<string, string>>;
type Say = (words: string, example?: string) => void;
const EMAIL = /^[^\s@]+@[^\s@]+\.[^\s@]+$/;

/** "M-F 6-10:30" and "6am-10am" as the reader of hours wants them. */
function hoursIn(text: string): string | null {
  const days = text
    .replace(/\bM\s*[-–]\s*F\b/gi, 'Mon-Fri')
    .replace(/\bM\s*[-–]\s*S(at)?\b/gi, 'Mon-Sat')
    .replace(/\bweekdays?\b/gi, 'Mon-Fri')
    .replace(/\b(mon|tues?|wed|thu(?:rs)?|fri|sat|sun)(?:day|s)?\b/gi, (d) => d.slice(0, 3));
  for (const form of [days, `daily ${days}`]) {
    const read = readWeekHours(form);
    if ('windows' in read && read.windows.length > 0) return writeWeekHours(read.windows);
  }
  return null;
}

/**
 * A kitchen's own cells go onto its first row. Where its rows disagree, the value given most often stands and the others
 * are kept with its access notes.
 */
export function kitchenCells(
  rows: readonly SheetRow[],
  places: readonly { customer: string; kitchen: string; address: string }[],
  units: Out[],
  shop: Position | null,
  say: Say,
) {
  const first = new Map<string, { out: Out; given: Map<string, Map<string, number>> }>();
  rows.forEach((row, i) => {
    const out = units[i];
    const place = places[i];
    if (!out || !place) return;
    const key = `${alike(place.customer)}|${alike(place.kitchen)}`;
    const entry = first.get(key) ?? { out, given: new Map<string, Map<string, number>>() };
    first.set(key, entry);
    const give = (field: string, value: string | undefined) => {
      if (!value) return;
      const counts = entry.given.get(field) ?? new Map<string, number>();
      counts.set(value, (counts.get(value) ?? 0) + 1);
      entry.given.set(field, counts);
    };
    const c = row.cells;
    give('address', place.address);
    give('contact_name', c.contact_name);
    give('contact_phone', c.contact_phone && phone(c.contact_phone));
    give('access_notes', c.access_notes);
    give('lat', c.lat);
    give('lng', c.lng);
    if (c.position) {
      const read = readPosition(c.position, shop);
      if ('position' in read && read.position) {
        give('lat', String(read.position.lat));
        give('lng', String(read.position.lng));
      } else {
        give('access', `Position: ${c.position}`);
        say('Not a position that can be read: kept with the access notes.', c.position);
      }
    }
    if (c.contact_email)
      give(
        EMAIL.test(c.contact_email) ? 'contact_email' : 'access',
        `E-mail: ${c.contact_email}`.replace(/^E-mail: (?=\S+@\S+\.\S+$)/, ''),
      );
    if (c.energy_price_per_kwh) give('energy_price_per_kwh', c.energy_price_per_kwh.replace(/[^\d.]/g, ''));
    if (c.service_hours) {
      const hours = hoursIn(c.service_hours);
      if (hours) give('service_hours', hours);
      else {
        give('access', `Hours: ${c.service_hours}`);
        say('Not hours that can be read: kept with the access notes.', c.service_hours);
      }
    }
  });
  for (const { out, given } of first.values()) {
    const more: string[] = [...(given.get('access')?.keys() ?? [])];
    for (const [field, counts] of given) {
      if (field === 'access') continue;
      const [best, ...others] = [...counts].sort((a, b) => b[1] - a[1]).map(([value]) => value);
      if (best !== undefined) out[field] = best;
      const differ = others.filter((o) => alike(o) !== alike(best ?? ''));
      if (differ.length > 0 && field !== 'address') {
        more.push(...differ.map((o) => `Also: ${o}`));
        say('Rows of one kitchen disagree: the value given most often stands, the others are kept with the access notes.', differ[0]);
      }
    }
    if (more.length > 0) out.access_notes = [out.access_notes, ...more].filter(Boolean).join('\n').slice(0, 3900);
  }
}
