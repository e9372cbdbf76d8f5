import { TAG_FORM } from '../equipment/limits';
import { UNIT_KIND_LABEL, type UnitKind } from '../equipment/build';
import { knownUnits, type KnownUnit } from '../fleet-csv';
import { findTable, likelySheet } from './find-table';
import { kitchenCells } from './kitchen-cells';
import { alike, asName, nearPairs, spellings } from './names';
import { readInterval } from './read-interval';
import { dateOrderOf, readDate, type DateOrder } from './read-date';
import { massUnitIn, readMass, type MassUnit } from './read-mass';
import { filledDown, placesOf, rowsOf, type SheetRow } from './rows';
import { guessColumns, targetOf } from './targets';
import { teller } from './tell';
import type { Question, RawSheet, SheetChoices, SheetLine, SheetReading } from './types';
import { PLACEMENT_OPTIONS, valueBook } from './values';
import { isFreezer, kindOf, placementInName, placementOf, refrigerantIn, SAYS_NOTHING } from './vocabulary';

export type SheetContext = {
  /** Refrigerants that can be filed. */
  refrigerants: readonly string[];
  /** Units on file: what a row says of one need not be said again. */
  unitsOnFile?: readonly KnownUnit[];
  /** Names on file, whose spelling stands. */
  customersOnFile: readonly string[];
  /** How the shop's country writes dates. */
  dateOrder: DateOrder;
  /** Today, to know a date to come: 2026-11-27. */
  today: string;
};

const OUT = [
  'customer', 'kitchen', 'address', 'lat', 'lng', 'service_hours', 'access_notes', 'contact_name', 'contact_phone', 'contact_email', 'energy_price_per_kwh',
  'unit', 'tag', 'kind', 'placement', 'refrigerant', 'charge_kg', 'temperature', 'box_f', 'roof_work', 'make', 'model', 'serial', 'notes',
  'coil_cleaning_rule', 'coil_cleaning_last_done',
] as const; // prettier-ignore
type Out = Partial<Record<(typeof OUT)[number], string>>;

/**
 * Reads a sheet of any form into the rows of the fleet file: what each column is, what each value stands for, what must be
 * asked and what was done without asking. Nothing that was written in it is lost: what has no place goes into the notes.
 */
export function readSheet(sheets: readonly RawSheet[], choices: SheetChoices, ctx: SheetContext): SheetReading {
  const sheet = sheets[choices.sheet ?? likelySheet(sheets)] ?? { name: '', rows: [] };
  const table = findTable(sheet);
  const byColumn = table.headers.map((_, i) => table.body.map((r) => r.cells[i] ?? ''));
  const guesses = guessColumns(table.headers, byColumn);
  const targets = guesses.map((g, i) => choices.columns[i] ?? g);
  const header = (target: string) => table.headers[targets.indexOf(target)] ?? '';
  const valuesOf = (target: string) => byColumn[targets.indexOf(target)]?.filter((v) => v !== '') ?? [];

  const tell = teller();
  for (const d of table.dropped) tell.say(DROPPED[d.why], d.text);
  const down = filledDown(rowsOf(table, targets));
  if (down.filled > 0) for (let i = 0; i < down.filled; i++) tell.say('No customer in the row: it belongs to the one above.');
  const rows = down.rows.filter((r) => {
    const enough = ['unit', 'kind', 'model', 'serial', 'tag', 'refrigerant'].some((t) => r.cells[t]);
    if (!enough) tell.say('Nothing of a unit in the row: left out.', Object.values(r.cells).join(' · '));
    return enough;
  });

  const questions: Question[] = [];
  const same = sameNames(rows, choices, ctx.customersOnFile, questions);
  const places = placesOf(rows, same);
  const order = (choices.answers.dates as DateOrder | undefined) ?? dateOrderOf(valuesOf('last_cleaned'), ctx.dateOrder);
  const massUnit = massUnitIn(header('charge')) ?? ((choices.answers.charge ?? null) as MassUnit | null);
  const kinds = valueBook('kind', choices);
  const spots = valueBook('placement', choices);
  const gases = valueBook('refrigerant', choices);
  const bareCharges: string[] = [];
  const unplaced: string[] = [];

  const claimed = claims(rows, places, ctx.unitsOnFile ?? []);
  const units = rows.map((row, i): Out => {
    const c = row.cells;
    const notes = [...row.notes];
    const keep = (name: string, text: string | undefined, words: string) => {
      if (!text) return;
      notes.push(`${name}: ${text}`);
      tell.say(words, text);
    };
    const out: Out = { customer: places[i]?.customer, kitchen: places[i]?.kitchen, make: c.make, model: c.model, serial: c.serial };

    const onFile = claimed[i];

    const [kindText, all] = [kindSource(row), [c.kind, c.unit, c.temperature].filter(Boolean).join(' ')];
    const kind = onFile ? onFile.values.kind : kinds.take(kindText, () => kindOf(kindText) ?? kindOf(`${c.unit ?? ''} ${c.model ?? ''}`));
    const frozen = isFreezer(all);
    out.kind = kind === 'walk_in_cooler' && frozen ? 'walk_in_freezer' : (kind ?? '');
    if (c.temperature) {
      const low = lowOrMedium(c.temperature);
      if (low) out.temperature = low;
      else keep(header('temperature') || 'Temperature', c.temperature, 'Not a class of temperature: kept in the notes.');
    } else if (frozen && out.kind === 'reach_in') out.temperature = 'low';

    const roof = /^(y|yes|x|true|1|roof)/i.test(c.roof_work ?? '') || /\broof/i.test(`${c.placement ?? ''} ${c.unit ?? ''}`);
    if (roof) out.roof_work = 'yes';
    const spot = onFile
      ? onFile.values.placement
      : c.placement && !SAYS_NOTHING.test(c.placement)
        ? spots.take(c.placement, () => placementOf(c.placement ?? ''))
        : (placementInName(c.unit ?? '') ?? (roof ? 'outdoors' : undefined));
    out.placement = spot ?? (spot === null ? '' : (choices.answers.placement ?? ''));
    if (spot === undefined) unplaced.push(c.unit ?? c.kind ?? '');
    if (c.placement && !SAYS_NOTHING.test(c.placement) && c.unit === undefined) notes.push(`Placement: ${c.placement}`);

    if (onFile && (!c.refrigerant || SAYS_NOTHING.test(c.refrigerant))) out.refrigerant = onFile.values.refrigerant;
    else if (!c.refrigerant || SAYS_NOTHING.test(c.refrigerant)) {
      out.refrigerant = 'unknown';
      tell.say('No refrigerant given: filed as not known.', c.refrigerant);
    } else {
      const gas = gases.take(c.refrigerant, () => refrigerantIn(c.refrigerant ?? '', ctx.refrigerants));
      out.refrigerant = gas ?? '';
      if (gas === 'unknown') notes.push(`Refrigerant in the sheet: ${c.refrigerant}`);
    }
    if (c.charge && !SAYS_NOTHING.test(c.charge)) {
      const kg = readMass(c.charge, massUnit);
      if (kg === 'bare') {
        if (choices.answers.charge === 'leave') keep('Charge', c.charge, 'A charge without a unit: kept in the notes.');
        else bareCharges.push(c.charge);
      } else if (kg === null || kg < 0.005 || kg > 500) keep('Charge', c.charge, 'Not a charge that can be read: kept in the notes.');
      else out.charge_kg = String(Number(kg.toPrecision(12)));
    }
    if (c.box) {
      const f = /^-?\d+(\.\d+)?\s*°?\s*(f)?$/i.exec(c.box.trim());
      if (f) out.box_f = String(parseFloat(c.box));
      else keep('Set point', c.box, 'Not a set point that can be read: kept in the notes.');
    }
    if (c.last_cleaned && !SAYS_NOTHING.test(c.last_cleaned)) {
      const date = readDate(c.last_cleaned, order);
      if (date && date <= ctx.today) out.coil_cleaning_last_done = date;
      else
        keep(
          header('last_cleaned') || 'Last cleaned',
          c.last_cleaned,
          date ? 'A date still to come: kept in the notes.' : 'Not a date that can be read: kept in the notes.',
        );
    }
    if (c.interval && !SAYS_NOTHING.test(c.interval)) {
      const weeks = readInterval(c.interval, header('interval'));
      if (weeks) out.coil_cleaning_rule = String(weeks);
      else keep(header('interval') || 'How often', c.interval, 'Not an interval that can be read: kept in the notes.');
    }
    if (c.tag) {
      const tag = c.tag.toUpperCase().replace(/^#/, '').replace(/\s+/g, '-');
      if (TAG_FORM.test(tag)) out.tag = tag;
      else keep('Tag', c.tag, 'Not a tag that fits a label: kept in the notes, a tag is made.');
    }
    const label = out.kind ? UNIT_KIND_LABEL[out.kind as UnitKind] : '';
    const plainName = c.unit && !(alike(c.unit) === alike(c.kind ?? '') || alike(c.unit).length <= 3) ? asName(c.unit) : label;
    const where = c.placement && !c.unit && !SAYS_NOTHING.test(c.placement) ? `, ${c.placement.toLowerCase()}` : '';
    out.unit = `${plainName || c.unit || c.model || c.tag || 'Unit'}${where}`.slice(0, 110);
    out.notes = notes.join('\n').slice(0, 3900);
    if (onFile)
      Object.assign(out, { customer: onFile.customer, kitchen: onFile.kitchen, unit: onFile.values.name, tag: onFile.values.tag });
    return out;
  });

  if (units.length > 0 && units.some((u) => !u.customer))
    questions.unshift({
      id: 'customer',
      words: 'Which column names the customer?',
      rows: units.filter((u) => !u.customer).length,
      examples: [],
      options: table.headers.map((name, at) => ({ value: String(at), label: name || `Column ${at + 1}` })),
      answer: '',
      open: true,
    });
  ask(questions, choices, { unplaced, bareCharges });
  numberedNames(units, tell.say);
  onceEach(units, tell.say);
  kitchenCells(rows, places, units, tell.say);
  if (valuesOf('last_cleaned').some((v) => /^\d{1,2}[-/.]\d{1,2}[-/.]\d{2,4}/.test(v)))
    questions.push({
      id: 'dates',
      words: 'Dates like 3/4/24',
      rows: valuesOf('last_cleaned').length,
      examples: valuesOf('last_cleaned').slice(0, 3),
      options: [
        { value: 'month first', label: 'Month first (4 March)' },
        { value: 'day first', label: 'Day first (3 April)' },
      ],
      answer: order,
      open: false,
    });

  const used = OUT.filter((h) => h === 'customer' || h === 'kitchen' || units.some((u) => u[h]));
  const lines: SheetLine[] = [
    { line: table.headerLine, cells: [...used] },
    ...units.map((u, i) => ({ line: rows[i]?.line ?? 0, cells: used.map((h) => u[h] ?? '') })),
  ];
  return {
    columns: table.headers.map((name, at) => {
      const filled = (byColumn[at] ?? []).filter((v) => v !== '');
      return {
        at,
        header: name,
        samples: [...new Set(filled)].slice(0, 3),
        filled: filled.length,
        target: targetOf(targets[at] ?? '') ? (targets[at] ?? 'leave') : 'leave',
        chosen: choices.columns[at] !== undefined,
      };
    }),
    headerLine: table.headerLine,
    groups: [...kinds.all(), ...spots.all(), ...gases.all()],
    questions,
    told: tell.all(),
    lines,
    rows: units.length,
  };
}

const DROPPED = {
  total: 'A total or an end of the list: left out.',
  'header again': 'The column names once more: left out.',
  heading: 'A heading: left out.',
  'too little': 'A line of one value only: left out.',
} as const;

/** The unit on file that each row is about. Tags and serials come first, and no unit is taken for two rows. */
function claims(rows: readonly SheetRow[], places: readonly { customer: string; kitchen: string }[], units: readonly KnownUnit[]) {
  const find = knownUnits(units);
  const rest = { kitchen: {}, tasks: new Map() };
  const found = rows.map(({ cells: c }) => find({ ...rest, names: {}, unit: { tag: c.tag?.toUpperCase(), serial: c.serial } }));
  const taken = new Set(found);
  return found.map((sure, i) => {
    if (sure) return sure;
    const c = rows[i]?.cells ?? {};
    const named = find({
      ...rest,
      names: { customer: places[i]?.customer, kitchen: places[i]?.kitchen },
      unit: { name: c.unit, serial: c.serial },
    });
    if (!named || taken.has(named)) return undefined;
    taken.add(named);
    return named;
  });
}

/** The text that says what kind of unit a row is. */
function kindSource({ cells: c }: SheetRow): string {
  if (c.kind && (kindOf(c.kind) || !c.unit)) return c.kind;
  if (c.unit && kindOf(c.unit)) return c.unit;
  return c.kind ?? c.unit ?? c.model ?? '';
}

function lowOrMedium(text: string): 'low' | 'medium' | null {
  const degrees = /^(-?\d+(\.\d+)?)\s*°?\s*f?$/i.exec(text);
  if (degrees) return Number(degrees[1]) < 25 ? 'low' : 'medium';
  if (/low|freez|frz|\bl\.?t\b|^f$/i.test(text)) return 'low';
  return /med|cool|refrig|fridge|\bm\.?t\b|high|^[cr]$/i.test(text) ? 'medium' : null;
}

/** One spelling a name; names a slip of the pen apart are asked about. */
function sameNames(
  rows: readonly SheetRow[],
  choices: SheetChoices,
  onFile: readonly string[],
  questions: Question[],
): (name: string) => string {
  const names = rows.flatMap((r) => [r.cells.customer, r.cells.kitchen].flatMap((n) => (n ? [n] : [])));
  const spelled = spellings(names);
  for (const name of onFile) spelled.set(alike(name), name);
  const count = (key: string) => names.filter((n) => alike(n) === key).length;
  for (const [a, b] of nearPairs([...new Set(names.map(alike))])) {
    const [most, least] = count(a) >= count(b) ? [a, b] : [b, a];
    const id = `same ${most} = ${least}`;
    const answer = choices.answers[id];
    questions.push({
      id,
      words: `Is “${spelled.get(least) ?? least}” the same as “${spelled.get(most) ?? most}”?`,
      rows: count(least),
      examples: [],
      options: [
        { value: 'same', label: 'The same' },
        { value: 'apart', label: 'Two different ones' },
      ],
      answer: answer ?? '',
      open: answer === undefined,
    });
    if (answer === 'same') spelled.set(least, spelled.get(most) ?? most);
  }
  return (name) => spelled.get(alike(name)) ?? asName(name);
}

function ask(questions: Question[], choices: SheetChoices, { unplaced, bareCharges }: { unplaced: string[]; bareCharges: string[] }) {
  if (unplaced.length > 0)
    questions.push({
      id: 'placement',
      words: 'Where do the units stand of which the sheet does not say it? Greasy places are cleaned more often.',
      rows: unplaced.length,
      examples: [...new Set(unplaced)].slice(0, 3),
      options: PLACEMENT_OPTIONS,
      answer: choices.answers.placement ?? '',
      open: !choices.answers.placement,
    });
  if (bareCharges.length > 0)
    questions.push({
      id: 'charge',
      words: 'What is the charge given in?',
      rows: bareCharges.length,
      examples: bareCharges.slice(0, 3),
      options: [
        { value: 'oz', label: 'Ounces' },
        { value: 'lb', label: 'Pounds' },
        { value: 'g', label: 'Grams' },
        { value: 'kg', label: 'Kilograms' },
        { value: 'leave', label: 'Nobody knows: keep it in the notes' },
      ],
      answer: '',
      open: true,
    });
}

/** Two units of one name in a kitchen are numbered. */
function numberedNames(units: readonly Out[], say: (words: string, example?: string) => void) {
  const seen = new Map<string, number>();
  for (const u of units) {
    const key = `${alike(u.customer ?? '')}|${alike(u.kitchen ?? '')}|${alike(u.unit ?? '')}`;
    const n = (seen.get(key) ?? 0) + 1;
    seen.set(key, n);
    if (n === 1) continue;
    say('A second unit of the same name in a kitchen: numbered.', u.unit);
    u.unit = `${u.unit} ${n}`;
  }
}

/** A tag belongs to one unit: the second one gets its own. */
function onceEach(units: readonly Out[], say: (words: string, example?: string) => void) {
  const tags = new Set<string>();
  for (const u of units) {
    if (!u.tag) continue;
    if (tags.has(u.tag)) {
      say('The same tag twice: the second unit gets a tag of its own.', u.tag);
      u.notes = [u.notes, `Tag in the sheet: ${u.tag}`].filter(Boolean).join('\n');
      u.tag = '';
    } else tags.add(u.tag);
  }
}
