import { dayWords } from '../calendar/when';
import type { LocalDate } from '../calendar';
import { money } from '../measures/figures';
import { counted } from '../wording/counted';

/** What a week came to, as the letter of Monday tells it. */
export type WeekFacts = {
  shop: string; name: string; monday: LocalDate; baseUrl: string;
  last: { planned: number; done: number; hours: number }; next: { planned: number };
  overdue: { tasks: number; toBook: number; pastLimit: number; limitDays: number };
  callsLastWeek: number; failing: number;
  changes: { groups: number; odd: number; all: number };
  quotes: { currency: string; waiting: number; waitingCents: number }[];
  /** In words, where what was expected and what was found part company. */
  distrust: string[];
}; // prettier-ignore

/** A letter of one screen: what happened, what waits, what to decide; each with the page that it opens to. */
export function weeklyLetter(f: WeekFacts): { subject: string; text: string } {
  const at = (path: string) => `${f.baseUrl}${path}`;
  const decide = [
    f.failing > 0 ? counted(f.failing, 'failing unit') : '',
    f.changes.odd > 0 ? `${counted(f.changes.odd, 'change')} of rules to look at one by one` : '',
    f.changes.groups > 0 ? `${counted(f.changes.all - f.changes.odd, 'usual change')} in ${counted(f.changes.groups, 'group')}` : '',
  ].filter(Boolean);
  const lines = [
    `${f.name},`,
    '',
    f.last.planned > 0
      ? `Last week: ${f.last.done} of ${counted(f.last.planned, 'visit')} done, ${Math.round(f.last.hours)} h in kitchens. Kitchens rang ${f.callsLastWeek === 0 ? 'not once' : counted(f.callsLastWeek, 'time')}.`
      : 'Last week: no visit was planned.',
    `This week: ${counted(f.next.planned, 'visit')} booked.`,
    at('/owner/shop'),
    '',
    f.overdue.tasks > 0
      ? `Overdue: ${counted(f.overdue.tasks, 'task')}, ${f.overdue.toBook} not booked yet, ${f.overdue.pastLimit} more than ${f.overdue.limitDays} days over.`
      : 'Nothing is overdue.',
    ...(f.overdue.tasks > 0 ? [at('/due?show=overdue&booked=1')] : []),
    '',
    decide.length > 0 ? `To decide: ${decide.join('; ')}.` : 'Nothing waits for your word.',
    ...(decide.length > 0 ? [at(f.changes.all > 0 && f.failing === 0 ? '/rules' : '/owner')] : []),
    ...f.quotes
      .filter((q) => q.waiting > 0)
      .map((q) => `In quotes that wait: ${money(q.waitingCents, q.currency)} in ${counted(q.waiting, 'quote')}.`),
    ...(f.distrust.length > 0 ? ['', ...f.distrust, at('/owner/right')] : []),
    '',
    f.shop,
    `You get this on Mondays. An owner turns it off under Shop: ${at('/shop')}`,
  ];
  return { subject: `${f.shop}: the week of ${dayWords(f.monday)}`, text: lines.join('\n') };
}
