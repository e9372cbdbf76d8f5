import { describeRule } from '../calendar';
import { customerDate } from '../calendar/when';
import type { CustomerWords, Language } from '../customer-words';
import type { Aspect, Grade } from '../findings/grades';

/** Sentences that the report of a visit and the summary of a quarter share. */

/** Energy lost by dirt is said for so many days. */
export const COST_DAYS = 30;

/** A kind of the shop's own has the shop's own word. */
export const taskWords = (say: CustomerWords, t: { kind: string; label: string }) => say.task[t.kind] ?? t.label.toLowerCase();
export const capital = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1);

/** The catalogue's sentence; an older grade that it does not know is left out rather than guessed at. */
export const foundWords = (say: CustomerWords, aspect: Aspect, grade: Grade): string | null =>
  (say.found[aspect] as Partial<Record<Grade, string>>)[grade] ?? null;

export type NextTask = { kind: string; task: string; dueOn: string; rule: string; ruleBefore: string | null };

const weeksOf = (rule: string): number | null => {
  const plain = /^every (?:(\d+) )?weeks?$/.exec(describeRule(rule));
  return plain ? Number(plain[1] ?? 1) : null;
};

/** When a task comes next, and why then. */
export function nextLine(n: NextTask, say: CustomerWords, language: Language): string {
  const head = say.next(capital(taskWords(say, { kind: n.kind, label: n.task })), customerDate(n.dueOn, language));
  const [is, was] = [weeksOf(n.rule), n.ruleBefore ? weeksOf(n.ruleBefore) : null];
  if (is === null) return `${head}.`;
  const why = was === null || was === is ? say.asBefore : is < was ? say.sooner(was) : say.later(was);
  return `${head} (${say.every(is)})${why}`;
}
