import type { DateOrder } from '../calendar/read-date';
import { entryUnit } from '../measures/entry-units';
import { TEMPERATURE_UNITS, type MeasureUnits } from '../measures/preferred';
import { groupBy } from '../numerics/group-by';
import { counted } from '../wording/counted';
import { distance } from '../wording/distance';
import { alike, alikeStreet, asName, nearPairs, spellings } from './names';
import type { SheetRow } from './rows';
import type { Question, SheetChoices } from './types';
import { PLACEMENT_OPTIONS } from './values';

/** Where the same is asked of more pairs than this, all of them are asked about at once first. */
const MOST_PAIRS = 4;
const ALL_PAIRS = 'same all';

/** One spelling a name; names a slip of the pen apart are asked about. */
export function sameNames(
  rows: readonly SheetRow[],
  choices: SheetChoices,
  onFile: readonly string[],
): { spelled: (name: string) => string; questions: Question[] } {
  const names = rows.flatMap((r) => [r.cells.customer, r.cells.kitchen].flatMap((n) => (n ? [n] : [])));
  const spelled = spellings(names);
  for (const name of onFile) spelled.set(alike(name), name);
  const spelling = (key: string) => spelled.get(key) ?? key;
  const counts = groupBy(names, alike);
  const count = (key: string) => counts.get(key)?.length ?? 0;
  const apart = toldApart(rows, onFile);
  const all = choices.answers[ALL_PAIRS];
  const pairs = nearPairs([...counts.keys()])
    .filter(([a, b]) => !apart(a, b))
    .map(([a, b]) => {
      const [most, least] = count(a) >= count(b) ? [a, b] : [b, a];
      const id = `same ${most} = ${least}`;
      return { id, most, least, answer: choices.answers[id] ?? (all === 'apart' ? all : undefined) };
    });
  const firstOfAll = all === undefined && pairs.filter((p) => p.answer === undefined).length > MOST_PAIRS;
  const questions: Question[] = [];
  if (firstOfAll || (all !== undefined && pairs.length > 0))
    questions.push({
      id: ALL_PAIRS,
      text: `${counted(pairs.length, 'pair')} of names differ by a letter or two. Are all of them different customers?`,
      rows: pairs.reduce((sum, { least }) => sum + count(least), 0),
      examples: pairs.slice(0, MOST_PAIRS).map(({ least, most }) => `${spelling(least)} / ${spelling(most)}`),
      options: [
        { value: 'apart', label: 'Yes, all of them are different' },
        { value: 'each', label: 'No: ask me about each pair' },
      ],
      answer: all ?? '',
      open: firstOfAll,
    });
  for (const { id, most, least, answer } of pairs) {
    if (answer === undefined && firstOfAll) continue;
    questions.push({
      id,
      text: `Is “${spelling(least)}” the same as “${spelling(most)}”?`,
      rows: count(least),
      examples: [],
      options: [
        { value: 'same', label: 'The same' },
        { value: 'apart', label: 'Two different ones' },
      ],
      answer: answer ?? '',
      open: answer === undefined,
    });
    if (answer === 'same') spelled.set(least, spelling(most));
  }
  return { spelled: (name) => spelled.get(alike(name)) ?? asName(name), questions };
}

/**
 * Whether two names that look alike are two customers for certain: both are on file, or they share no street and differ by more than one
 * letter or in their first (a slip of the pen seldom falls there; common experience, from memory).
 */
function toldApart(rows: readonly SheetRow[], onFile: readonly string[]): (a: string, b: string) => boolean {
  const filed = new Set(onFile.map(alike));
  const streets = new Map<string, Set<string>>();
  for (const { cells } of rows)
    for (const name of [cells.customer, cells.kitchen]) {
      if (!name || !cells.address) continue;
      const key = alike(name);
      streets.set(key, (streets.get(key) ?? new Set()).add(alikeStreet(cells.address)));
    }
  return (a, b) => {
    if (filed.has(a) && filed.has(b)) return true;
    const [mine, theirs] = [streets.get(a), streets.get(b)];
    if (!mine || !theirs || [...mine].some((street) => theirs.has(street))) return false;
    return a[0] !== b[0] || distance(a, b) > 1;
  };
}

/** One column of the sheet, to be pointed at. */
function columnQuestion(id: string, text: string, rows: number, headers: readonly string[]): Question[] {
  if (rows === 0) return [];
  const options = headers.map((name, at) => ({ value: String(at), label: name || `Column ${at + 1}` }));
  return [{ id, text, rows, examples: [], options, answer: '', open: true }];
}

/** Asked where no column says what the units are, rather than of each model. `rows` are those that no unit on file is known by. */
export const whatQuestion = (rows: number, headers: readonly string[]): Question[] =>
  columnQuestion('unit', 'Which column says what each unit is?', rows, headers);

const ALL_OF = 'all:';
/** The customer of a whole sheet, where somebody said that it is one's. */
export const customerOfAll = ({ answers }: SheetChoices): string | null =>
  answers.customer?.startsWith(ALL_OF) ? answers.customer.slice(ALL_OF.length) : null;
/** What was decided that holds for other sheets of the same columns too. */
export function forTheNext(choices: SheetChoices): SheetChoices {
  const ofThis = (id: string) => id === ALL_PAIRS || (id === 'customer' && customerOfAll(choices) !== null);
  const answers = Object.entries(choices.answers);
  return answers.some(([id]) => ofThis(id)) ? { ...choices, answers: Object.fromEntries(answers.filter(([id]) => !ofThis(id))) } : choices;
}

/** What a sheet has to tell customers by: its columns, and names that stand over them. */
type Tellers = { targets: readonly string[]; headers: readonly string[]; titles: readonly string[] };

/**
 * Asked where a row has no customer: without one it belongs to nobody. The whole sheet can be that of a name that stands over it; and
 * where it has addresses alone they can stand for customers, once somebody says so.
 */
export function customerQuestion(
  units: readonly { customer?: string }[],
  { targets, headers, titles }: Tellers,
  choices: SheetChoices,
): Question[] {
  const nameless = units.filter((u) => !u.customer).length;
  const byAddress = !targets.includes('customer') && !targets.includes('kitchen') && targets.includes('address') && nameless === 0;
  const all = customerOfAll(choices);
  const rows = byAddress || all !== null ? units.length : nameless;
  const more = [
    ...(byAddress ? [{ value: 'address', label: 'None: each address is a customer' }] : []),
    ...titles.map((name) => ({ value: `${ALL_OF}${name}`, label: `All of it is of “${name}”` })),
  ];
  const answer = all !== null || (byAddress && choices.answers.customer === 'address') ? (choices.answers.customer ?? '') : '';
  return columnQuestion('customer', 'Which column names the customer?', rows, headers).map((q) => ({
    ...q,
    options: [...more, ...q.options],
    answer,
    open: answer === '',
  }));
}

/** `units` of which the sheet does not say where they stand. */
export function placementQuestion(units: readonly string[], { answers }: SheetChoices): Question[] {
  if (units.length === 0) return [];
  return [
    {
      id: 'placement',
      text: 'Where do the units stand of which the sheet does not say it? Greasy places are cleaned more often.',
      rows: units.length,
      examples: [...new Set(units)].slice(0, 3),
      options: PLACEMENT_OPTIONS,
      answer: answers.placement ?? '',
      open: !answers.placement,
    },
  ];
}

/** `charges` that came without a unit. */
export function chargeQuestion(charges: readonly string[]): Question[] {
  if (charges.length === 0) return [];
  return [
    {
      id: 'charge',
      text: 'What is the charge given in?',
      rows: charges.length,
      examples: charges.slice(0, 3),
      options: [
        { value: 'oz', label: 'Ounces' },
        { value: 'lb', label: 'Pounds' },
        { value: 'g', label: 'Grams' },
        { value: 'kg', label: 'Kilograms' },
        { value: 'leave', label: 'Nobody knows: keep it in the notes' },
      ],
      answer: '',
      open: true,
    },
  ];
}

/** `degrees` that came without a unit: read as the shop reads, unless somebody says otherwise. */
export function degreesQuestion(degrees: readonly string[], unit: MeasureUnits['temperature']): Question[] {
  if (degrees.length === 0) return [];
  return [
    {
      id: 'degrees',
      text: `Temperatures without a unit, like ${degrees[0] ?? ''}`,
      rows: degrees.length,
      examples: [...new Set(degrees)].slice(0, 3),
      options: TEMPERATURE_UNITS.map((value) => ({ value, label: entryUnit('temperature', value).label })),
      answer: unit,
      open: false,
    },
  ];
}

/** Dates in digits alone could be either way round. */
export function dateQuestion(dates: readonly string[], order: DateOrder): Question[] {
  if (!dates.some((v) => /^\d{1,2}[-/.]\d{1,2}[-/.]\d{2,4}/.test(v))) return [];
  return [
    {
      id: 'dates',
      text: 'Dates like 3/4/24',
      rows: dates.length,
      examples: dates.slice(0, 3),
      options: [
        { value: 'month first', label: 'Month first (4 March)' },
        { value: 'day first', label: 'Day first (3 April)' },
      ],
      answer: order,
      open: false,
    },
  ];
}

/** Asked once where months are marked: nobody can tell what was done from what is to be done. */
export function monthsQuestion(marked: readonly string[], { answers }: SheetChoices): Question[] {
  if (marked.length === 0) return [];
  return [
    {
      id: 'months',
      text: 'What do the marks under the months mean?',
      rows: marked.length,
      examples: [...new Set(marked)].slice(0, 3),
      options: [
        { value: 'done', label: 'Cleaned in those months: the last one gone by counts' },
        { value: 'plan', label: 'To be cleaned in those months: how often follows' },
        { value: 'leave', label: 'Something else: keep them in the notes' },
      ],
      answer: answers.months ?? '',
      open: !answers.months,
    },
  ];
}
