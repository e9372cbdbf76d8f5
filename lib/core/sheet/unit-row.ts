import { TAG_FORM } from '../equipment/limits';
import { UNIT_KIND_LABEL } from '../equipment/build';
import { isKeyOf } from '../typed/closed-set';
import type { KnownUnit } from '../fleet-csv';
import { alike, asName } from './names';
import { readInterval } from './read-interval';
import { readDate, type DateOrder } from './read-date';
import { readMass, type MassUnit } from './read-mass';
import type { SheetRow } from './rows';
import type { SheetChoices } from './types';
import type { ValueBook } from './values';
import { isFreezer, kindOf, placementInName, placementOf, refrigerantIn, SAYS_NOTHING } from './vocabulary';

/** Columns of the fleet file that a sheet can fill. */
export const OUT = [
  'customer', 'kitchen', 'address', 'lat', 'lng', 'service_hours', 'access_notes', 'contact_name', 'contact_phone', 'contact_email', 'energy_price_per_kwh',
  'unit', 'tag', 'kind', 'placement', 'refrigerant', 'charge_kg', 'temperature', 'box_f', 'roof_work', 'make', 'model', 'serial', 'notes',
  'coil_cleaning_rule', 'coil_cleaning_last_done',
] as const; // prettier-ignore
export type Out = Partial<Record<(typeof OUT)[number], string>>;

/** What the rows of one sheet share: how its values are read, and what is still open after them. */
export type SheetRules = {
  choices: SheetChoices;
  refrigerants: readonly string[];
  today: string;
  order: DateOrder;
  /** Whether a column says what the units are; one question asks for it where none does. */
  saysWhat: boolean;
  massUnit: MassUnit | null;
  /** What the sheet calls the column of a target; '' where it has none. */
  header: (target: string) => string;
  kinds: ValueBook;
  spots: ValueBook;
  gases: ValueBook;
  say: (words: string, example?: string) => void;
  /** Charges without a unit, and units without a place: asked about once for all. */
  bareCharges: string[];
  unplaced: string[];
};

type Cells = SheetRow['cells'];
/** Puts a cell that cannot be read into the notes, and says so. */
type Keep = (name: string, text: string, words: string) => void;

/** A row as the fleet file has it. A unit on file keeps what the sheet need not say again. */
export function unitRow(
  row: SheetRow,
  place: { customer: string; kitchen: string } | undefined,
  onFile: KnownUnit | undefined,
  rules: SheetRules,
): Out {
  const c = row.cells;
  const notes = [...row.notes];
  const keep: Keep = (name, text, words) => {
    notes.push(`${name}: ${text}`);
    rules.say(words, text);
  };
  const kind = kindCell(row, onFile, rules);
  const out: Out = {
    customer: place?.customer,
    kitchen: place?.kitchen,
    make: c.make,
    model: c.model,
    serial: c.serial,
    kind,
    ...temperatureCell(c, kind, rules, keep),
    ...placementCells(c, onFile, rules, notes),
    ...refrigerantCell(c, onFile, rules, notes),
    ...chargeCell(c, rules, keep),
    ...boxCell(c, keep),
    ...lastDoneCell(c, rules, keep),
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

function temperatureCell(c: Cells, kind: string, { header }: SheetRules, keep: Keep): Out {
  if (!c.temperature) return kind === 'reach_in' && saysFreezer(c) ? { temperature: 'low' } : {};
  const temperature = lowOrMedium(c.temperature);
  if (temperature) return { temperature };
  keep(header('temperature') || 'Temperature', c.temperature, 'Not a class of temperature: kept in the notes.');
  return {};
}

function lowOrMedium(text: string): 'low' | 'medium' | null {
  const degrees = /^(-?\d+(\.\d+)?)\s*°?\s*f?$/i.exec(text);
  if (degrees) return Number(degrees[1]) < 25 ? 'low' : 'medium';
  if (/low|freez|frz|\bl\.?t\b|^f$/i.test(text)) return 'low';
  return /med|cool|refrig|fridge|\bm\.?t\b|high|^[cr]$/i.test(text) ? 'medium' : null;
}

function placementCells(c: Cells, onFile: KnownUnit | undefined, rules: SheetRules, notes: string[]): Out {
  const roof = onRoof(c);
  const said = saying(c.placement);
  const spot = onFile ? onFile.values.placement : spotOf(c, said, roof, rules);
  if (spot === undefined) rules.unplaced.push(c.unit ?? c.kind ?? '');
  if (said && c.unit === undefined) notes.push(`Placement: ${said}`);
  const placement = spot === undefined ? (rules.choices.answers.placement ?? '') : (spot ?? '');
  return roof ? { roof_work: 'yes', placement } : { placement };
}

const onRoof = (c: Cells): boolean =>
  /^(y|yes|x|true|1|roof)/i.test(c.roof_work ?? '') || /\broof/i.test(`${c.placement ?? ''} ${c.unit ?? ''}`);

/** Null where what the sheet says must be asked about, undefined where it says nothing. */
function spotOf(c: Cells, said: string | undefined, roof: boolean, { spots }: SheetRules): string | null | undefined {
  if (said) return spots.take(said, () => placementOf(said));
  return placementInName(c.unit ?? '') ?? (roof ? 'outdoors' : undefined);
}

function refrigerantCell(c: Cells, onFile: KnownUnit | undefined, rules: SheetRules, notes: string[]): Out {
  const said = saying(c.refrigerant);
  if (!said && onFile) return { refrigerant: onFile.values.refrigerant };
  if (!said) {
    rules.say('No refrigerant given: filed as not known.', c.refrigerant);
    return { refrigerant: 'unknown' };
  }
  const gas = rules.gases.take(said, () => refrigerantIn(said, rules.refrigerants));
  if (gas === 'unknown') notes.push(`Refrigerant in the sheet: ${said}`);
  return { refrigerant: gas ?? '' };
}

function chargeCell(c: Cells, rules: SheetRules, keep: Keep): Out {
  const said = saying(c.charge);
  if (!said) return {};
  const kg = readMass(said, rules.massUnit);
  if (kg === 'bare') {
    if (rules.choices.answers.charge === 'leave') keep('Charge', said, 'A charge without a unit: kept in the notes.');
    else rules.bareCharges.push(said);
    return {};
  }
  if (kg !== null && kg >= 0.005 && kg <= 500) return { charge_kg: String(Number(kg.toPrecision(12))) };
  keep('Charge', said, 'Not a charge that can be read: kept in the notes.');
  return {};
}

function boxCell(c: Cells, keep: Keep): Out {
  if (!c.box) return {};
  if (/^-?\d+(\.\d+)?\s*°?\s*(f)?$/i.test(c.box.trim())) return { box_f: String(parseFloat(c.box)) };
  keep('Set point', c.box, 'Not a set point that can be read: kept in the notes.');
  return {};
}

function lastDoneCell(c: Cells, { order, today, header }: SheetRules, keep: Keep): Out {
  const said = saying(c.last_cleaned);
  if (!said) return {};
  const date = readDate(said, order);
  if (date && date <= today) return { coil_cleaning_last_done: date };
  const words = date ? 'A date still to come: kept in the notes.' : 'Not a date that can be read: kept in the notes.';
  keep(header('last_cleaned') || 'Last cleaned', said, words);
  return {};
}

function ruleCell(c: Cells, { header }: SheetRules, keep: Keep): Out {
  const said = saying(c.interval);
  if (!said) return {};
  const weeks = readInterval(said, header('interval'));
  if (weeks) return { coil_cleaning_rule: String(weeks) };
  keep(header('interval') || 'How often', said, 'Not an interval that can be read: kept in the notes.');
  return {};
}

function tagCell(c: Cells, keep: Keep): Out {
  if (!c.tag) return {};
  const tag = c.tag.toUpperCase().replace(/^#/, '').replace(/\s+/g, '-');
  if (TAG_FORM.test(tag)) return { tag };
  keep('Tag', c.tag, 'Not a tag that fits a label: kept in the notes, a tag is made.');
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
