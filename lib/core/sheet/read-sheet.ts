import type { KnownUnit } from '../fleet-csv';
import { TEMPERATURE_UNITS, type MeasureUnits } from '../measures/preferred';
import type { Position } from '../position';
import { isOneOf } from '../typed/closed-set';
import { claims } from './claims';
import { findTable, likelySheet, sameAsAbove, type Table } from './find-table';
import { kitchenCells } from './kitchen-cells';
import { alike } from './names';
import {
  chargeQuestion,
  customerOfAll,
  customerQuestion,
  dateQuestion,
  degreesQuestion,
  monthsQuestion,
  placementQuestion,
  sameNames,
  whatQuestion,
} from './questions';
import { DATE_ORDERS, dateOrderOf, type DateOrder } from '../calendar/read-date';
import { kindsAsRows, monthsAsOne } from './reshape';
import { MASS_UNITS, massUnitIn } from './read-mass';
import { filledDown, placesOf, rowsOf, type SheetRow } from './rows';
import { guessColumns, targetOf } from './targets';
import { eachItsRow, severalQuestion } from './several';
import { teller, type Say } from './tell';
import { addressIn, ALL_TABS, together, type Together } from './together';
import type { RawSheet, SheetChoices, SheetColumn, SheetLine, SheetReading } from './types';
import { OUT, unitRow, type Out, type SheetRules } from './unit-row';
import { valueBook } from './values';

export type SheetContext = {
  /** Refrigerants that can be filed. */
  refrigerants: readonly string[];
  /** Units on file: what a row says of one need not be said again. */
  unitsOnFile?: readonly KnownUnit[];
  /** Names on file, whose spelling stands. */
  customersOnFile: readonly string[];
  /** How the shop's country writes dates. */
  dateOrder: DateOrder;
  /** What the shop reads temperatures in. */
  temperature: MeasureUnits['temperature'];
  /** Where the shop stands: short plus codes are read near it. */
  shop?: Position | null;
  /** Today, to know a date to come: 2026-11-27. */
  today: string;
};

/**
 * Reads a sheet of any form into the rows of the fleet file: what each column is, what each value stands for, what must be
 * asked and what was done without asking. Nothing that was written in it is lost: what has no place goes into the notes.
 */
export function readSheet(sheets: readonly RawSheet[], choices: SheetChoices, ctx: SheetContext): SheetReading {
  const { table, byColumn, targets, tabs, same, titles } = columnsIn(sheets, choices);
  const header = (target: string) => table.headers[targets.indexOf(target)] ?? '';
  const dates = byColumn[targets.indexOf('last_cleaned')]?.filter((v) => v !== '') ?? [];

  const tell = teller();
  for (const tab of tabs) tell.say('Tabs with the same columns are read as one list, its rows counted through.', tab);
  for (const [line, value] of same) tell.say('Marked as the same as above: taken from there.', value, { line });
  const asWritten = rowsWithUnits(table, targets, tell.say).map((row) => ofOne(row, customerOfAll(choices), addressIn(table.above)));
  const rows = eachItsRow(asWritten, choices);
  const names = sameNames(rows, choices, ctx.customersOnFile);
  const places = placesOf(rows, names.spelled);
  const { answers } = choices;
  const order = orderOf(dates, answers.dates, ctx, (text) => tell.say(text, dates[0], { column: header('last_cleaned') }));
  const [kinds, spots, gases] = [valueBook('kind', choices), valueBook('placement', choices), valueBook('refrigerant', choices)];
  const temperatureUnit = isOneOf(TEMPERATURE_UNITS, answers.degrees) ? answers.degrees : ctx.temperature;
  const rules: SheetRules = {
    choices,
    refrigerants: ctx.refrigerants,
    today: ctx.today,
    order,
    saysWhat: targets.includes('unit') || targets.includes('kind'),
    massUnit: massUnitIn(header('charge')) ?? (isOneOf(MASS_UNITS, answers.charge) ? answers.charge : null),
    temperatureUnit,
    shopTemperature: ctx.temperature,
    header,
    kinds,
    spots,
    gases,
    say: tell.say,
    bareCharges: [],
    bareDegrees: [],
    unplaced: [],
    marked: [],
  };
  const onFile = claims(rows, places, ctx.unitsOnFile ?? []);
  const units = rows.map((row, i) => unitRow(row, places[i], onFile[i], rules));
  const questions = [
    ...whatQuestion(rules.saysWhat ? 0 : onFile.filter((u) => !u).length, table.headers),
    ...customerQuestion(units, { targets, headers: table.headers, titles }, choices),
    ...names.questions,
    ...severalQuestion(asWritten, choices),
    ...placementQuestion(rules.unplaced, choices),
    ...chargeQuestion(rules.bareCharges),
    ...degreesQuestion(rules.bareDegrees, temperatureUnit),
    ...dateQuestion(dates, order),
    ...monthsQuestion(rules.marked, choices),
  ];
  const sayOf: SayOf = (i, text, example) => tell.say(text, example, { line: rows[i]?.line });
  numberedNames(units, onFile, ctx.unitsOnFile ?? [], sayOf);
  onceEach(units, onFile, sayOf);
  serialsTwice(units, onFile, sayOf);
  kitchenCells(rows, places, units, { shop: ctx.shop ?? null, header, say: tell.say });
  for (const text of table.above) if (text !== customerOfAll(choices)) tell.say('Over the names of the columns: left out.', text);
  return {
    columns: columnsOf(table.headers, byColumn, targets, choices),
    headerLine: table.headerLine,
    groups: [...kinds.all(), ...spots.all(), ...gases.all()],
    questions,
    assumptions: tell.all(),
    lines: linesOf(table.headerLine, rows, units),
    rows: units.length,
  };
}

/** The table that was chosen, with what each of its columns is, the tabs that stand in it, and rows that said "as above". */
function columnsIn(sheets: readonly RawSheet[], choices: SheetChoices) {
  const { sheet, tabs } = chosenSheet(sheets, choices);
  const found = kindsAsRows(monthsAsOne(findTable(sheet)));
  const { body, rows } = sameAsAbove(found.body);
  const table = { ...found, body, dropped: [...found.dropped, ...(tabs?.dropped ?? [])] };
  const byColumn = table.headers.map((_, i) => body.map((r) => r.cells[i] ?? ''));
  const guesses = guessColumns(table.headers, byColumn);
  if (tabs?.customers) guesses[0] = 'customer';
  const titles = tabs ? [] : [...table.above, sheet.name].filter(isTitle).slice(0, MOST_TITLES);
  return { table, byColumn, targets: guesses.map((g, i) => choices.columns[i] ?? g), tabs: tabs?.tabs ?? [], same: rows, titles };
}

const MOST_TITLES = 3;
/** What may be somebody's name over a list of theirs. */
const isTitle = (text: string) =>
  /\p{L}{2}/u.test(text) && text.length <= 60 && addressIn([text]) === '' && !/^(sheet|tab|table|list)\s*\d*$/i.test(text.trim());

/** A row of a sheet that is all one customer's. */
const ofOne = (row: SheetRow, customer: string | null, address: string): SheetRow =>
  customer === null || row.cells.customer ? row : { ...row, cells: { ...(address ? { address } : {}), ...row.cells, customer } };

/** The sheet that was chosen: all tabs of one form where each is a customer's, unless one of them was picked. `alike`: how many are of one form. */
export function chosenSheet(
  sheets: readonly RawSheet[],
  choices: SheetChoices,
): { chosen: number; sheet: RawSheet; tabs: Together | null; alike: number } {
  const all = together(sheets);
  const chosen = choices.sheet ?? (all?.customers ? ALL_TABS : likelySheet(sheets));
  const alike = all?.tabs.length ?? 0;
  return all && chosen === ALL_TABS
    ? { chosen, sheet: all.sheet, tabs: all, alike }
    : { chosen, sheet: sheets[chosen] ?? { name: '', rows: [] }, tabs: null, alike };
}

/** The rows that are about a unit, what was merged over several of them filled down. */
function rowsWithUnits(table: Table, targets: readonly string[], say: Say): SheetRow[] {
  for (const { why, text, line } of table.dropped) say(DROPPED[why], text, { line });
  const down = filledDown(rowsOf(table, targets));
  for (let i = 0; i < down.filled; i++) say('No customer in the row: it belongs to the one above.');
  return down.rows.filter((r) => {
    const enough = ['unit', 'kind', 'model', 'serial', 'tag', 'refrigerant'].some((t) => r.cells[t]);
    if (!enough) say('Nothing of a unit in the row: left out.', Object.values(r.cells).join(' · '), { line: r.line });
    return enough;
  });
}

function columnsOf(
  headers: readonly string[],
  byColumn: readonly (readonly string[])[],
  targets: readonly string[],
  choices: SheetChoices,
): SheetColumn[] {
  return headers.map((name, at) => {
    const filled = (byColumn[at] ?? []).filter((v) => v !== '');
    return {
      at,
      header: name,
      samples: [...new Set(filled)].slice(0, 3),
      filled: filled.length,
      target: targetOf(targets[at] ?? '') ? (targets[at] ?? 'leave') : 'leave',
      chosen: choices.columns[at] !== undefined,
    };
  });
}

/** The fleet file: only the columns that something stands in. */
function linesOf(headerLine: number, rows: readonly SheetRow[], units: readonly Out[]): SheetLine[] {
  const used = OUT.filter((h) => h === 'customer' || h === 'kitchen' || units.some((u) => u[h]));
  return [
    { line: headerLine, cells: [...used] },
    ...units.map((u, i) => ({ line: rows[i]?.line ?? 0, cells: used.map((h) => u[h] ?? '') })),
  ];
}

/** Which of a sheet's dates in digits is the month; told where nobody chose it and the shop writes it the other way. */
function orderOf(dates: readonly string[], chosen: string | undefined, ctx: SheetContext, tell: (text: string) => void): DateOrder {
  if (isOneOf(DATE_ORDERS, chosen)) return chosen;
  const order = dateOrderOf(dates, ctx.dateOrder, ctx.today);
  if (order !== ctx.dateOrder) tell(UNUSUAL_ORDER[order]);
  return order;
}

const UNUSUAL_ORDER = {
  'day first': 'Most dates fit only with the day first: 3/4/24 is read as 3 April.',
  'month first': 'Most dates fit only with the month first: 3/4/24 is read as 4 March.',
} as const;

const DROPPED = {
  total: 'A total or an end of the list: left out.',
  'header again': 'The column names once more: left out.',
  heading: 'A heading: left out.',
  'too little': 'A line of one value only: left out.',
} as const;

/** What was done about one of the rows. */
type SayOf = (i: number, text: string, example?: string) => void;

/**
 * Units of one name in a kitchen are numbered, past those on file that another serial tells apart. What is `about` a unit on file
 * keeps its name.
 */
function numberedNames(units: readonly Out[], about: readonly (KnownUnit | undefined)[], onFile: readonly KnownUnit[], say: SayOf) {
  const key = (u: { customer?: string; kitchen?: string }, name: string) =>
    `${alike(u.customer ?? '')}|${alike(u.kitchen ?? '')}|${alike(name)}`;
  const serials = new Map(onFile.map((u) => [key(u, u.values.name ?? ''), alike(u.values.serial ?? '')]));
  const taken = new Set(units.flatMap((u, i) => (about[i] ? [key(u, u.unit ?? '')] : [])));
  units.forEach((u, i) => {
    if (about[i]) return;
    const other = (name: string) => {
      const serial = serials.get(key(u, name));
      return taken.has(key(u, name)) || Boolean(u.serial && serial && serial !== alike(u.serial));
    };
    const name = u.unit ?? '';
    if (other(name)) {
      let n = 2;
      while (other(`${name} ${n}`)) n++;
      say(i, 'A second unit of the same name in a kitchen: numbered.', name);
      u.unit = `${name} ${n}`;
    }
    taken.add(key(u, u.unit ?? ''));
  });
}

/** Two plates with one number are a slip of the pen somewhere: both go on file, and it is told. */
function serialsTwice(units: readonly Out[], about: readonly (KnownUnit | undefined)[], say: SayOf) {
  const seen = new Map<string, KnownUnit | undefined>();
  units.forEach(({ serial }, i) => {
    const key = alike(serial ?? '').replace(/\s/g, '');
    if (key.length < 4) return;
    const same = about[i] !== undefined && seen.get(key) === about[i];
    if (seen.has(key) && !same) say(i, 'The same serial twice: both units go on file with it. Look at their plates.', serial);
    if (!seen.has(key)) seen.set(key, about[i]);
  });
}

/** A tag belongs to one unit: the second one gets its own. Rows about one unit on file both have its tag. */
function onceEach(units: readonly Out[], about: readonly (KnownUnit | undefined)[], say: SayOf) {
  const tags = new Map<string, KnownUnit | undefined>();
  units.forEach((u, i) => {
    if (!u.tag) return;
    if (!tags.has(u.tag)) tags.set(u.tag, about[i]);
    else if (about[i] !== undefined && tags.get(u.tag) === about[i])
      say(i, 'Two rows about one unit on file: where they differ the first one stands.', u.tag);
    else {
      say(i, 'The same tag twice: the second unit gets a tag of its own.', u.tag);
      u.notes = [u.notes, `Tag in the sheet: ${u.tag}`].filter(Boolean).join('\n');
      u.tag = '';
    }
  });
}
