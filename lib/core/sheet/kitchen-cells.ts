import { readPosition, type Position } from '../position';
import { closedDays, readWeekHours, writeWeekHours } from '../hours';
import type { Weekday } from '../calendar';
import { alike, phone } from './names';
import { readFigure } from '../measures/typed';
import type { SheetRow } from './rows';
import type { Say, Where } from './tell';

type Out = Partial<Record<string, string>>;
const EMAIL = /^[^\s@]+@[^\s@]+\.[^\s@]+$/;

/** Hours as the reader of hours writes them; null where they cannot be read, or say nothing. */
function hoursIn(text: string): string | null {
  const read = readWeekHours(text);
  return 'windows' in read && read.windows.length > 0 ? writeWeekHours(read.windows) : null;
}

/** The hours of a cell, whatever it says of closed days beside them; nothing where it says no more than those. */
function hoursAndRest(cell: string | undefined): string | undefined {
  if (!cell) return undefined;
  const { days, rest } = closedDays(cell);
  if (days.length > 0 && rest === '') return undefined;
  return hoursIn(cell) ?? (days.length > 0 ? hoursIn(rest) : null) ?? 'unread';
}

/** Hours of every day where none are given. */
const ANY_TIME = 'Mon-Sun 00:00-24:00';

/** A kitchen's hours without the days that its notes call closed; null where its hours name such a day, or none would be left. */
function hoursWithout(hours: string | undefined, closed: ReadonlySet<Weekday>): string | null {
  const read = readWeekHours(hours ?? ANY_TIME);
  if (!('windows' in read)) return null;
  const open = read.windows.filter((w) => !closed.has(w.weekday));
  // Hours of all seven days were written without a day; others name theirs.
  const named = new Set(read.windows.map((w) => w.weekday)).size < 7;
  return open.length === 0 || (named && open.length < read.windows.length) ? null : writeWeekHours(open);
}

type Noted = { days: Set<Weekday>; note: string; where: Where };
/** Days that a row's notes call closed, for its kitchen. */
function noteClosed(row: SheetRow, noted: Noted, { header, say }: Sheet): void {
  const notes: [target: string, text: string][] = [...row.notes.map((text): [string, string] => ['notes', text]), ['access_notes', row.cells.access_notes ?? ''], ['service_hours', row.cells.service_hours ?? '']]; // prettier-ignore
  for (const [target, text] of notes) {
    const { days, unclear } = closedDays(text);
    const where = { column: header(target), line: row.line };
    if (days.length > 0 && noted.note === '') Object.assign(noted, { note: text, where });
    for (const day of days) noted.days.add(day);
    if (unclear && target !== 'service_hours') say('Speaks of closed days, and not so plainly that hours follow from it: it stays a note. Understood are “closed Mon” and “Sat, Sun closed”.', text, where); // prettier-ignore
  }
}

/** Closed days of a kitchen's notes leave its hours. */
function closeDays(out: Out, { days, note, where }: Noted, say: Say): void {
  if (days.size === 0) return;
  const hours = hoursWithout(out.service_hours, days);
  if (hours === null) {
    say('Hours and a note about closed days disagree: the hours stand, and the note stays a note.', note, where);
    return;
  }
  if (hours !== out.service_hours) say('Closed days in a note are read as hours for us, and the note stays.', `${note}: ${hours}`, where);
  out.service_hours = hours;
}

/** "$0.14", "0,17 €/kWh" and "14 cents" as a number of the shop's money; null where it is none. */
function priceIn(text: string): string | null {
  const figure = readFigure(/[\d.,]*\d/.exec(text)?.[0] ?? '');
  if (figure === null) return null;
  return String(Number((/[\d\s](c|ct|cents?)\b|¢/i.test(text) ? figure / 100 : figure).toPrecision(12)));
}

/** What the sheet calls the column of a target, where the shop stands, and where what was done is told. */
type Sheet = { shop: Position | null; header: (target: string) => string; say: Say };

/**
 * A kitchen's own cells go onto its first row. Where its rows disagree, the value given most often stands and the others
 * are kept with its access notes.
 */
export function kitchenCells(
  rows: readonly SheetRow[],
  places: readonly { customer: string; kitchen: string; address: string }[],
  units: Out[],
  sheet: Sheet,
) {
  const { shop, header, say } = sheet;
  const first = new Map<string, { out: Out; given: Map<string, Map<string, number>>; closed: Noted }>();
  rows.forEach((row, i) => {
    const out = units[i];
    const place = places[i];
    if (!out || !place) return;
    const key = `${alike(place.customer)}|${alike(place.kitchen)}`;
    const entry = first.get(key) ?? {
      out,
      given: new Map<string, Map<string, number>>(),
      closed: { days: new Set(), note: '', where: {} },
    };
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
    const keep = (target: string, name: string, message: string) => {
      give('access', `${name}: ${c[target] ?? ''}`);
      say(message, c[target], { column: header(target) || name, line: row.line });
    };
    if (c.position) {
      const read = readPosition(c.position, shop);
      if ('position' in read && read.position) {
        give('lat', String(read.position.lat));
        give('lng', String(read.position.lng));
      } else
        keep('position', 'Position', 'Not a position that can be read: kept with the access notes. Understood are 41.88, -87.63 or a plus code.'); // prettier-ignore
    }
    if (c.contact_email && EMAIL.test(c.contact_email)) give('contact_email', c.contact_email);
    else if (c.contact_email)
      keep(
        'contact_email',
        'E-mail',
        'Not an e-mail address: kept with the access notes. Understood are addresses like ann@kitchen.example.',
      );
    if (c.energy_price_per_kwh) {
      const price = priceIn(c.energy_price_per_kwh);
      if (price) give('energy_price_per_kwh', price);
      else
        keep('energy_price_per_kwh', 'Energy price', 'Not a price that can be read: kept with the access notes. Understood are 0.14, $0.14 or 14 cents.'); // prettier-ignore
    }
    noteClosed(row, entry.closed, sheet);
    const hours = hoursAndRest(c.service_hours);
    if (hours === 'unread')
      keep('service_hours', 'Hours', 'Not hours that can be read: kept with the access notes. Understood are Mon-Fri 06:00-10:30; Sat 7-9, 6am-2pm or all day.'); // prettier-ignore
    else give('service_hours', hours);
  });
  for (const { out, given, closed } of first.values()) {
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
    closeDays(out, closed, say);
    if (more.length > 0) out.access_notes = [out.access_notes, ...more].filter(Boolean).join('\n').slice(0, 3900);
  }
}
