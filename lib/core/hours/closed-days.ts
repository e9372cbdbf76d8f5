import type { Weekday } from '../calendar';
import { plainMarks } from '../wording/plain-text';
import { daysNamed } from './week-hours';

const DAY = '(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:days?|s)?';
const DAYS = String.raw`${DAY}(?:\s*(?:[-–—&+/]|to|thru|through|and)\s*${DAY})*|week ?ends?`;
const CLOSED_FIRST = new RegExp(String.raw`^(?:always |days )?(?:closed|shut)(?: days?)?(?: on| every| each)?:?\s+(${DAYS})$`, 'i');
const CLOSED_LAST = new RegExp(String.raw`^(${DAYS}):?\s+(?:always )?(?:closed|shut)$`, 'i');
const DAYS_ALONE = new RegExp(`^(?:and )?(${DAYS})$`, 'i');
/** Says something of days on which they are closed, plainly or not. */
const SPEAKS = new RegExp(String.raw`\b(?:closed|shut)\b.*\b${DAY}\b|\b${DAY}\b.*\b(?:closed|shut)\b`, 'i');

type Clause = { text: string; days: Weekday[]; after: string };

/**
 * Weekdays that a note calls closed in so many words, "closed Mon", "Sat, Sun closed", "closed weekends"; whatever is said beside them ("in
 * winter", "after 3") leaves them unread. `unclear`: it speaks of such days, and not plainly. `rest`: the note without what was read.
 */
export function closedDays(note: string): { days: Weekday[]; unclear: boolean; rest: string } {
  const pieces = plainMarks(note).split(/([,;|()\n]|\.(?=\s|$))/);
  const clauses = pieces.flatMap((text, i): Clause[] =>
    i % 2 === 0 ? [{ text: text.trim(), days: closedIn(text), after: pieces[i - 1] === ',' ? ', ' : '; ' }] : [],
  );
  joinNeighbours(clauses);
  const rest = clauses.filter((c) => c.days.length === 0 && c.text !== '');
  const days = [...new Set(clauses.flatMap((c) => c.days))].sort((a, b) => a - b);
  // Closed all week is no day of the week.
  const unclear = days.length === 7 || rest.some(({ text }) => SPEAKS.test(text));
  return { days: unclear ? [] : days, unclear, rest: rest.map(({ text, after }, i) => (i === 0 ? '' : after) + text).join('') };
}

function closedIn(text: string): Weekday[] {
  // What a column is called stands before its words.
  const said = text.trim().replace(/^.*:\s+(?=(?:closed|shut)\s)/i, '');
  const [, named = ''] = CLOSED_FIRST.exec(said) ?? CLOSED_LAST.exec(said) ?? [];
  return named === '' ? [] : (daysNamed(named) ?? []);
}

/** "closed Sat, Sun" and "Sat, Sun closed": a day alone belongs to the one that is closed beside it. */
function joinNeighbours(clauses: Clause[]): void {
  const take = (clause: Clause, beside: Clause | undefined, form: RegExp) => {
    const named = DAYS_ALONE.exec(clause.text)?.[1];
    if (named && clause.days.length === 0 && beside && beside.days.length > 0 && (form.test(beside.text) || DAYS_ALONE.test(beside.text)))
      clause.days = daysNamed(named) ?? [];
  };
  clauses.forEach((clause, i) => take(clause, clauses[i - 1], CLOSED_FIRST));
  for (let i = clauses.length - 2; i >= 0; i--) {
    const clause = clauses[i];
    if (clause) take(clause, clauses[i + 1], CLOSED_LAST);
  }
}
