import { readDate } from '../calendar/read-date';
import { readWeekHours } from '../hours';
import { kindOf } from './vocabulary';

/** What a column of a sheet can be, the words that give it away, and what its values look like. */
export type Target = {
  key: string;
  label: string;
  header: RegExp;
  values?: RegExp;
  fits?: (value: string) => boolean;
  of: 'kitchen' | 'unit';
};

export const TARGETS: readonly Target[] = [
  { key: 'customer', label: 'Customer', of: 'kitchen', header: /^(customers?|clients?|acc(oun)?ts?\.?|company|owner|chain|brand|bill.?to|restaurants?|cust\.?|business|establishment|venue|premises|places?(?! ?(in|on|of|at|where)\b))(?![a-z])( name)?/ },
  { key: 'kitchen', label: 'Kitchen', of: 'kitchen', header: /^(kitchen|site|store|location name|loc(ation)?(?! ?\(| in\b)|branch|outlet|job|property|facility|unit #? ?\/? ?store|store (name|#|no))\b(?!.*(phone|\btel|mail|hours|hrs|manager|contact|notes|city|town|zip|addr))/ },
  { key: 'address', label: 'Street address', of: 'kitchen', header: /^(address|addr|street|(service|svc|serv|site|job|loc(ation)?|store|kitchen|customer) addr(ess)?|ship.?to)\b/, values: /^\d+\s+\S+.*\b(st|street|ave|avenue|rd|road|blvd|boulevard|dr|drive|ln|lane|way|pkwy|hwy|pl|ct|court|square|sq)\b/i },
  { key: 'town', label: 'Town', of: 'kitchen', header: /^(city|town|twn|municipality)\b/ },
  { key: 'state', label: 'State', of: 'kitchen', header: /^(state|st|province|prov|region)$/ },
  { key: 'zip', label: 'ZIP', of: 'kitchen', header: /^(zip|zip ?code|postal|post ?code)/, values: /^\d{5}(-\d{4})?$/ },
  { key: 'position', label: 'Position (lat, long or plus code)', of: 'kitchen', header: /^(position(?! in)|coord|gps|lat.?(itude)?.*(lng|lon)|plus.?code|map)/, values: /^-?\d{1,2}\.\d+\s*[,;]\s*-?\d{1,3}\.\d+$/ },
  { key: 'lat', label: 'Latitude', of: 'kitchen', header: /^lat(itude)?$/ },
  { key: 'lng', label: 'Longitude', of: 'kitchen', header: /^(lng|lon|long|longitude)$/ },
  { key: 'contact_name', label: 'Contact', of: 'kitchen', header: /^(contact|manager|gm|chef|mgr|attn|person|contact (name|person)|poc|who to (see|ask|call)|ask for|see)\b(?!.*(phone|mail|tel|cell|mobile))/ },
  { key: 'contact_phone', label: 'Phone', of: 'kitchen', header: /\b(phone|tel|telephone|cell|mobile|ph)\b|phone/, values: /^\(?\+?1?[\s.-]?\(?\d{3}\)?[\s.-]*\d{3}[\s.-]?\d{4}/ },
  { key: 'contact_email', label: 'E-mail', of: 'kitchen', header: /e-?mail/, values: /^[^\s@]+@[^\s@]+\.[a-z]+$/i },
  { key: 'service_hours', label: 'Hours for us', of: 'kitchen', header: /^(service )?(hours|hrs|window|access (hours|time)|open|when)\b/ },
  { key: 'access_notes', label: 'Access', of: 'kitchen', header: /^(access|entry|key|door|gate|lock|alarm|parking)\b/ },
  { key: 'energy_price_per_kwh', label: 'Energy price, per kWh', of: 'kitchen', header: /kwh|energy (price|cost|rate)/ },
  { key: 'kind', label: 'Kind of unit', of: 'unit', fits: (v) => kindOf(v) !== null, header: /^(type|kind|category|class|equip(ment)? (type|kind|class)|unit type|eq\.? type)\b/ },
  { key: 'unit', label: 'Unit’s name', of: 'unit', header: /^(unit|equip(ment)?|eqpt?|eq|equip\.?|asset|item|description|desc|descr|name|box|appliance|unit (name|desc\w*)|mach(ine)?|what)\b(?!.*(#|no\b|number|tag|id\b|type|kind))/ },
  { key: 'count', label: 'How many units', of: 'unit', header: /^(qty|qnty|quantity|how many|units|(no\.?|#|number) of units|# units|count|pcs)\.?$/ },
  { key: 'tag', label: 'Tag', of: 'unit', header: /^(tag|asset (#|id|no|tag)|unit (#|id|no|number)|equip(ment)? (#|id|no)|label|barcode|qr|id|eq #)/ },
  { key: 'make', label: 'Make', of: 'unit', header: /^(make|mfg?r?|mfgr|manuf\w*|manf\w*|brand)\b/ },
  { key: 'model', label: 'Model', of: 'unit', header: /^(model|mod|mdl|m\/n|mn)\b/ },
  { key: 'serial', label: 'Serial', of: 'unit', header: /^((serial|ser|s\/n|sn)\b|s ?n ?#)/ },
  { key: 'refrigerant', label: 'Refrigerant', of: 'unit', header: /^(refrig(erant)?|refr?|ref\.?|gas|freon|ref type)\b(?!.*(charge|amount|lb|oz))/, values: /^(r|hfc)?[\s-]?(22|12|134a?|290|404a?|407[acf]?|410a?|448a?|449a?|450a?|452a?|454[ac]|455a|507a?|513a|600a|744)\b/i },
  { key: 'charge', label: 'Charge', of: 'unit', header: /charge|(refrig\w*|gas|ref|freon) \(?(amount|amt|qty|weight|lbs?|oz)|^(lbs?|oz|ounces)$/, values: /^\d+(\.\d+)?\s*((lbs?|oz|kg|g)\b|#)/i },
  { key: 'placement', label: 'Where it stands', of: 'unit', header: /^(area|where|placement|loc|position in|station|room|zone|unit location|equip(ment)? location|location in|spot|loc(ation)? ?\(|cond(enser)? loc)/ },
  { key: 'roof_work', label: 'On the roof', of: 'unit', header: /^(roof|rooftop|on roof|ladder)/ },
  { key: 'temperature', label: 'Cooler or freezer', of: 'unit', header: /^(temp(erature)?( class| type)?|application|med\/?low|mt\/?lt)$/ },
  { key: 'box', label: 'Box set point', of: 'unit', header: /set ?point|box temp|setting/ },
  { key: 'last_cleaned', label: 'Coil last cleaned', of: 'unit', header: /last.*(clean|serv|pm|done|visit|coil)\w*|(clean|serv|pm|visit)\w*.*(last|date)|^(date|pm date|last)\b|date.*(clean|serv|pm)|(clean|serv|pm)\w* (done|on)\b/ },
  { key: 'interval', label: 'How often cleaned', of: 'unit', header: /^(freq|frequency|interval|how often|every\b|schedule|pm (freq|sched|interval)|cycle|cleaning (freq|interval|schedule)|(days|weeks|wks|months|mos?)\.? (between|btwn|btw|b\/w|per)\b)/ },
  { key: 'months', label: 'Months marked', of: 'unit', header: /^marked months$/ },
  { key: 'notes', label: 'Keep in the notes', of: 'unit', header: /^(notes?|comments?|remarks?|memo|misc|other)\b/ },
]; // prettier-ignore

export const LEAVE = { key: 'leave', label: 'Leave out' } as const;
export const targetOf = (key: string): Target | undefined => TARGETS.find((t) => t.key === key);

/** Targets that only one column may be; several may go into the notes. */
const SHARE = new Set(['notes', 'leave']);

/** Names that fit, but say little. */
const VAGUE = /^(date|last)$/;

/** What each column most likely is: by its name first, then by what its values look like. */
export function guessColumns(headers: readonly string[], columns: readonly (readonly string[])[]): string[] {
  const names = headers.map((h) =>
    h
      .toLowerCase()
      .replace(/[_*:]+/g, ' ')
      .replace(/\s+/g, ' ')
      .trim(),
  );
  const named = names.some((name) => name !== '');
  const taken = new Set<string>();
  const guess: (string | null)[] = names.map(() => null);
  const give = (i: number, key: string) => {
    guess[i] = key;
    if (!SHARE.has(key)) taken.add(key);
  };
  // The words that say most first: "Last Cleaned" before "Location", whatever their order in the sheet.
  // "Date" alone is the last cleaning only where no other column says so better.
  for (const exact of [true, false])
    for (const t of TARGETS)
      names.forEach((name, i) => {
        if (guess[i] || name === '' || (taken.has(t.key) && !SHARE.has(t.key))) return;
        const m = t.header.exec(name);
        if (m && (!exact || (m[0] === name && !VAGUE.test(name)))) give(i, t.key);
      });
  names.forEach((name, i) => {
    if (guess[i]) return;
    const filled = (columns[i] ?? []).filter((v) => v !== '');
    if (!taken.has('last_cleaned') && filled.length > 0 && sayDates(name, filled)) return give(i, 'last_cleaned');
    const looks = TARGETS.find((t) => !taken.has(t.key) && !alreadySaid(t.key, taken) && filled.length > 0 && fitting(filled, t) >= 0.6);
    // What a unit is called says what it is, and more.
    if (looks) give(i, looks.key === 'kind' && name === '' && !taken.has('unit') ? 'unit' : looks.key);
    else give(i, filled.length === 0 || (name === '' && named && filled.length < 3) || isCount(name, filled) ? 'leave' : 'notes');
  });
  const sorted = placesSorted(
    guess.map((g) => g ?? 'leave'),
    names,
    columns,
  );
  return whenSorted(sorted, names, columns);
}

/** "When" is a kitchen's hours, unless its cells are days. */
function whenSorted(guess: string[], names: readonly string[], columns: readonly (readonly string[])[]): string[] {
  const at = names.indexOf('when');
  if (guess[at] !== 'service_hours' || guess.includes('last_cleaned')) return guess;
  const filled = (columns[at] ?? []).filter((v) => v !== '');
  const days = filled.filter((v) => readDate(v, 'month first') !== null).length;
  const hours = filled.filter((v) => 'windows' in readWeekHours(v)).length;
  return days > hours ? guess.map((g, i) => (i === at ? 'last_cleaned' : g)) : guess;
}

/** What a unit is stands in its kind or in its name; where one of them is found, another column is looked at by its name alone. */
const alreadySaid = (key: string, taken: ReadonlySet<string>) => key === 'kind' && taken.has('unit');
const fitting = (values: readonly string[], { values: form, fits }: Target) =>
  form ? share(values, form) : fits ? values.filter(fits).length / values.length : 0;
const share = (values: readonly string[], form: RegExp) => values.filter((v) => form.test(v)).length / values.length;
/** Dates of something that nobody named: the last cleaning, unless the name says another day of a unit's life. */
const sayDates = (name: string, values: readonly string[]) =>
  !/inst|warr|built|purch|bought|new|print|updat|start|next|due|exp|year|yr/.test(name) &&
  values.filter((v) => /\d/.test(v) && readDate(v, 'month first') !== null).length / values.length >= 0.6;
/** A running number of rows says nothing. */
const isCount = (name: string, values: readonly string[]) =>
  /^(#|no\.?|nr|row|line|ln\.?|item #)?$/.test(name) && share(values, /^\d{1,4}\.?$/) > 0.9;

/** "Location" and "Place" name a customer or one of its kitchens, unless they say where a unit stands: "roof" and "line". */
function placesSorted(guess: string[], names: readonly string[], columns: readonly (readonly string[])[]): string[] {
  const at = guess.findIndex((g, i) => (g === 'kitchen' || g === 'customer' || g === 'notes') && /^(loc|place)/.test(names[i] ?? ''));
  if (at < 0 || guess.includes('placement')) return guess;
  const filled = (columns[at] ?? []).filter((v) => v !== '');
  const spots = /\b(roof|line|boh|bar|kitchen|basement|back|prep|fry|cook|outside|storage|front|foh|dish|pantry|dining)\b/i;
  const spot = filled.length > 0 && share(filled, spots) > 0.5;
  const now = spot ? 'placement' : guess[at] === 'notes' && !guess.includes('kitchen') ? 'kitchen' : guess[at];
  return guess.map((g, i) => (i === at ? (now ?? g) : g));
}
