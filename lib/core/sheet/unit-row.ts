import { TAG_FORM } from '../equipment/limits';
import { UNIT_KIND_LABEL } from '../equipment/build';
import { isKeyOf } from '../typed/closed-set';
import type { KnownUnit } from '../fleet-csv';
import { entryUnit } from '../measures/entry-units';
import type { MeasureUnits } from '../measures/preferred';
import { fahrenheitToKelvin } from '../measures/temperature';
import { readMeasure } from '../measures/typed';
import { alike, asName } from './names';
import { readInterval } from './read-interval';
import { lastSuchMonth, readDate, type DateOrder } from '../calendar/read-date';
import { readMass, type MassUnit } from './read-mass';
import { monthsIn } from './reshape';
import type { SheetRow } from './rows';
import type { Say } from './tell';
import type { SheetChoices } from './types';
import type { ValueBook } from './values';
import { isFreezer, kindOf, placementInName, placementOf, refrigerantIn, SAYS_NOTHING } from './vocabulary';

/** Columns of the fleet file that a sheet can fill. */
export const OUT = [
  'customer', 'kitchen', 'address', 'lat', 'lng', 'service_hours', 'access_notes', 'contact_name', 'contact_phone', 'contact_email', 'energy_price_per_kwh',
  'unit', 'tag', 'kind', 'placement', 'refrigerant', 'charge_kg', 'temperature', 'box_f', 'box_c', 'roof_work', 'make', 'model', 'serial', 'notes',
  'coil_cleaning_rule', 'coil_cleaning_last_done',
] as const; // prettier-ignore
export type Out = Partial<Record<(typeof OUT)[number], string>>;

export type TemperatureUnit = MeasureUnits['temperature'];

/** What the rows of one sheet share: how its values are read, and what is still open after them. */
export type SheetRules = {
  choices: SheetChoices;
  refrigerants: readonly string[];
  today: string;
  order: DateOrder;
  /** Whether a column says what the units are; one question asks for it where none does. */
  saysWhat: boolean;
  massUnit: MassUnit | null;
  /** Of temperatures that name none, and which the shop reads in. */
  temperatureUnit: TemperatureUnit;
  shopTemperature: TemperatureUnit;
  /** What the sheet calls the column of a target; '' where it has none. */
  header: (target: string) => string;
  kinds: ValueBook;
  spots: ValueBook;
  gases: ValueBook;
  say: Say;
  /** Charges and temperatures without a unit, and units without a place: asked about once for all. */
  bareCharges: string[];
  bareDegrees: string[];
  unplaced: string[];
  /** Months that are marked in rows. */
  marked: string[];
};

type Cells = SheetRow['cells'];
/** Puts a cell that cannot be read into the notes, and says where it stood and what would be understood. */
type Keep = (target: string, text: string, message: string) => void;

/** What a column is called where the sheet has no name for it. */
const NAME: Record<string, string> = {
  temperature: 'Temperature', box: 'Set point', charge: 'Charge', last_cleaned: 'Last cleaned', interval: 'How often', tag: 'Tag', roof_work: 'On the roof',
}; // prettier-ignore

/** A row as the fleet file has it. A unit on file keeps what the sheet need not say again. */
export function unitRow(
  row: SheetRow,
  place: { customer: string; kitchen: string } | undefined,
  onFile: KnownUnit | undefined,
  rules: SheetRules,
): Out {
  const c = row.cells;
  const notes = [...row.notes];
  const keep: Keep = (target, text, message) => {
    const column = rules.header(target) || NAME[target] || target;
    notes.push(`${column}: ${text}`);
    rules.say(message, text, { column, line: row.line });
  };
  const kind = kindCell(row, onFile, rules);
  const out: Out = {
    customer: place?.customer,
    kitchen: place?.kitchen,
    make: c.make,
    model: c.model,
    serial: c.serial,
    kind,
    ...temperatureCell(row, kind, rules, keep),
    ...placementCells(c, onFile, rules, notes),
    ...roofCell(c, keep),
    ...refrigerantCell(row, onFile, rules, notes),
    ...chargeCell(c, rules, keep),
    ...boxCell(c, rules, keep),
    ...monthsCell(row, rules, notes),
    ...lastDoneCell(row, rules, keep),
    ...ruleCell(c, rules, keep),
    ...tagCell(c, keep),
    unit: unitName(c, kind),
  };
  out.notes = notes.join('\n').slice(0, 3900);
  return onFile ? { ...out, customer: onFile.customer, kitchen: onFile.kitchen, unit: onFile.values.name, tag: onFile.values.tag } : out;
}

/** The cell, unless what it says is that nothing is known. */
const saying = (text: string | undefined): string | undefined => (text && !SAYS_NOTHING.test(text) ? text : undefined);
const saysFreezer = (c: Cells) => isFreezer([c.kind, c.unit, c.temperature].filter(Boolean).join(' '));

function kindCell(row: SheetRow, onFile: KnownUnit | undefined, { kinds, saysWhat }: SheetRules): string {
  const c = row.cells;
  const text = kindSource(row);
  if (!saysWhat && !onFile) return kindOf(text) ?? '';
  const kind = onFile ? onFile.values.kind : kinds.take(text, () => kindOf(text) ?? kindOf(`${c.unit ?? ''} ${c.model ?? ''}`));
  return kind === 'walk_in_cooler' && saysFreezer(c) ? 'walk_in_freezer' : (kind ?? '');
}

/** The text that says what kind of unit a row is. */
function kindSource({ cells: c }: SheetRow): string {
  if (c.kind && (kindOf(c.kind) || !c.unit)) return c.kind;
  if (c.unit && kindOf(c.unit)) return c.unit;
  return c.kind ?? c.unit ?? c.model ?? '';
}

/** Kelvin of a number of degrees: in its own unit, else in that of its column’s name, else in that of the sheet’s bare numbers. Null where it is none. */
function degreesIn(text: string, target: string, { header, temperatureUnit, bareDegrees }: SheetRules): number | null {
  const read = readMeasure('temperature', text);
  if (!read) return null;
  const column = unitIn(header(target));
  if (!read.toSi && !column) bareDegrees.push(text);
  return (read.toSi ?? entryUnit('temperature', column ?? temperatureUnit).toSi)(read.figure);
}

/** The scale that a column’s own name gives, as in "Set point (°C)". */
const unitIn = (header: string): TemperatureUnit | null => {
  const scale = /[°º] ?([cf])\b|\b(c(?:elsius)?|f(?:ahrenheit)?)\)?$/i.exec(header.trim());
  return scale ? ((scale[1] ?? scale[2] ?? '').toLowerCase().startsWith('c') ? 'C' : 'F') : null;
};

/** Under 25 °F something is kept frozen. */
const FROZEN_K = fahrenheitToKelvin(25);
const CLASSES = 'Understood are cooler, freezer, medium, low, 38 °F or 3 °C.';

/** Degrees say a class, and what the box is kept at where nothing else does. */
function temperatureCell({ cells: c, line }: SheetRow, kind: string, rules: SheetRules, keep: Keep): Out {
  if (!c.temperature) return kind === 'reach_in' && saysFreezer(c) ? { temperature: 'low' } : {};
  const kelvin = degreesIn(c.temperature, 'temperature', rules);
  if (kelvin === null) {
    const temperature = lowOrMedium(c.temperature);
    if (temperature) return { temperature };
    keep('temperature', c.temperature, `Not a class of temperature: kept in the notes. ${CLASSES}`);
    return {};
  }
  const temperature = kelvin < FROZEN_K ? 'low' : 'medium';
  if (c.box) return { temperature };
  rules.say('Degrees: what the box is kept at, too.', c.temperature, { column: rules.header('temperature'), line });
  return { temperature, ...boxOf(kelvin, rules) };
}

function lowOrMedium(text: string): 'low' | 'medium' | null {
  if (/low|freez|frz|\bl\.?t\b|^f$/i.test(text)) return 'low';
  return /med|cool|refrig|fridge|\bm\.?t\b|high|^[cr]$/i.test(text) ? 'medium' : null;
}

function placementCells(c: Cells, onFile: KnownUnit | undefined, rules: SheetRules, notes: string[]): Out {
  const roof = onRoof(c) === true;
  const said = saying(c.placement);
  const spot = onFile ? onFile.values.placement : spotOf(c, said, roof, rules);
  if (spot === undefined) rules.unplaced.push(c.unit ?? c.kind ?? '');
  if (said && c.unit === undefined) notes.push(`Placement: ${said}`);
  const placement = spot === undefined ? (rules.choices.answers.placement ?? '') : (spot ?? '');
  return roof ? { roof_work: 'yes', placement } : { placement };
}

/** Null where neither yes nor no can be read. */
function onRoof(c: Cells): boolean | null {
  const said = (c.roof_work ?? '').trim();
  if (/^(y|yes|x|true|t|1|on|s[ií])(?!\p{L})|^[✓✔☑]|^roof|^ladder/iu.test(said)) return true;
  if (/\broof(?!(top)?[\s-]*(bar|lounge|terrace|restaurant|kitchen|deck|patio|cafe))/i.test(`${c.placement ?? ''} ${c.unit ?? ''}`))
    return true;
  return said === '' || /^(no?|not|none|false|f|0|off|ground|indoors?|inside)(?!\p{L})|^[✗✘☐]/iu.test(said) || SAYS_NOTHING.test(said)
    ? false
    : null;
}

/** What the column of the roof says beside yes and no is kept. */
function roofCell(c: Cells, keep: Keep): Out {
  if (onRoof(c) === null) keep('roof_work', c.roof_work ?? '', 'Neither yes nor no: kept in the notes. Understood are yes, no, y, n, x, true, false, 1 and 0.'); // prettier-ignore
  return {};
}

/** Null where what the sheet says must be asked about, undefined where it says nothing. */
function spotOf(c: Cells, said: string | undefined, roof: boolean, { spots }: SheetRules): string | null | undefined {
  if (said) return spots.take(said, () => placementOf(said));
  return placementInName(c.unit ?? '') ?? (roof ? 'outdoors' : undefined);
}

function refrigerantCell({ cells: c, line }: SheetRow, onFile: KnownUnit | undefined, rules: SheetRules, notes: string[]): Out {
  const said = saying(c.refrigerant);
  if (!said && onFile) return { refrigerant: onFile.values.refrigerant };
  if (!said) {
    rules.say('No refrigerant given: filed as not known.', c.refrigerant, { column: rules.header('refrigerant'), line });
    return { refrigerant: 'unknown' };
  }
  const gas = rules.gases.take(said, () => refrigerantIn(said, rules.refrigerants));
  if (gas === 'unknown') notes.push(`Refrigerant in the sheet: ${said}`);
  else if (massBeside(said) && saying(c.charge)) notes.push(`Refrigerant in the sheet: ${said}`);
  return { refrigerant: gas ?? '' };
}

/** "134a 12 oz", "404A / 2 lb 4 oz": the charge that stands in one cell with the refrigerant. */
const massBeside = (refrigerant: string | undefined): string | undefined =>
  /(?<![\w.])\d+(?:[.,/]\d+)?\s*(?:lbs?|oz|ounces|kg|g)\b.*$/i.exec(refrigerant ?? '')?.[0].replace(/[)\]\s]+$/, '');

function chargeCell(c: Cells, rules: SheetRules, keep: Keep): Out {
  const said = saying(c.charge) ?? massBeside(c.refrigerant);
  if (!said) return {};
  const kg = readMass(said, rules.massUnit);
  if (kg === 'bare') {
    if (rules.choices.answers.charge === 'leave')
      keep('charge', said, 'A charge without a unit: kept in the notes. Understood are 20 oz, 1.25 lb, 567 g or 0.6 kg.');
    else rules.bareCharges.push(said);
    return {};
  }
  if (kg !== null && kg >= 0.005 && kg <= 500) return { charge_kg: String(Number(kg.toPrecision(12))) };
  keep('charge', said, 'Not a charge that can be read: kept in the notes. Understood are 1 lb 4 oz, 20 oz, 567 g or 0.6 kg, up to 500 kg.');
  return {};
}

function boxCell(c: Cells, rules: SheetRules, keep: Keep): Out {
  if (!c.box) return {};
  const kelvin = degreesIn(c.box, 'box', rules);
  if (kelvin !== null) return boxOf(kelvin, rules);
  keep('box', c.box, 'Not a set point that can be read: kept in the notes. Understood are 38, 38 °F or 3 °C.');
  return {};
}

/** In the shop’s own unit, as its file of the fleet has it. */
function boxOf(kelvin: number, { shopTemperature }: SheetRules): Out {
  const text = String(Number(entryUnit('temperature', shopTemperature).fromSi(kelvin).toFixed(6)));
  return shopTemperature === 'C' ? { box_c: text } : { box_f: text };
}

function lastDoneCell({ cells, line }: SheetRow, { order, today, header, say }: SheetRules, keep: Keep): Out {
  const said = saying(cells.last_cleaned);
  if (!said) return {};
  const date = readDate(said, order);
  if (date && date <= today) return { coil_cleaning_last_done: date };
  const month = lastSuchMonth(said, today);
  if (month) {
    say('A month alone: read as the last one gone by, from its first day.', said, {
      column: header('last_cleaned') || NAME.last_cleaned,
      line,
    });
    return { coil_cleaning_last_done: month };
  }
  const message = date
    ? 'A date still to come: kept in the notes. Understood are days up to today.'
    : 'Not a date that can be read: kept in the notes. Understood are 2026-03-16, 3/16/26, 16.3.2026, Mar 16, 2026 or June.';
  keep('last_cleaned', said, message);
  return {};
}

/** A calendar's marks: the last month gone by, or how often, as somebody said what they mean. */
function monthsCell({ cells: c, line }: SheetRow, { choices, today, header, say, marked }: SheetRules, notes: string[]): Out {
  const months = monthsIn(c.months ?? '');
  if (months.length === 0) return {};
  marked.push(c.months ?? '');
  notes.push(`${header('months')}: ${c.months ?? ''}`);
  const meant = choices.answers.months;
  if (meant === 'plan') return { coil_cleaning_rule: String(Math.max(1, Math.round(52.18 / months.length))) };
  if (meant !== 'done') return {};
  const month = Number(today.slice(5, 7));
  const gone = months.filter((m) => m <= month);
  const last = Math.max(...(gone.length > 0 ? gone : months));
  const day = `${Number(today.slice(0, 4)) - (gone.length > 0 ? 0 : 1)}-${String(last).padStart(2, '0')}-01`;
  say('Marked months: the last one gone by counts, from its first day.', c.months, { column: header('months'), line });
  return { coil_cleaning_last_done: day };
}

function ruleCell(c: Cells, { header }: SheetRules, keep: Keep): Out {
  const said = saying(c.interval);
  if (!said) return {};
  const weeks = readInterval(said, header('interval'));
  if (weeks) return { coil_cleaning_rule: String(weeks) };
  keep('interval', said, 'Not an interval that can be read: kept in the notes. Understood are monthly, 90 days, 6 weeks or 2x a year, up to two years.'); // prettier-ignore
  return {};
}

function tagCell(c: Cells, keep: Keep): Out {
  if (!c.tag) return {};
  const tag = c.tag.toUpperCase().replace(/^#/, '').replace(/\s+/g, '-');
  if (TAG_FORM.test(tag)) return { tag };
  keep('tag', c.tag, 'Not a tag that fits a label: kept in the notes, a tag is made. Tags are 2 to 40 letters, digits, dots, dashes and underscores.'); // prettier-ignore
  return {};
}

/** What the sheet calls the unit; by its kind and place where that is no name. */
function unitName(c: Cells, kind: string): string {
  const label = isKeyOf(UNIT_KIND_LABEL, kind) ? UNIT_KIND_LABEL[kind] : '';
  const named = c.unit && alike(c.unit) !== alike(c.kind ?? '') && alike(c.unit).length > 3;
  const plain = named && c.unit ? asName(c.unit) : label;
  const said = c.unit ? undefined : saying(c.placement);
  const where = said ? `, ${said.toLowerCase()}` : '';
  return `${plain || c.unit || c.model || c.tag || 'Unit'}${where}`.slice(0, 110);
}
