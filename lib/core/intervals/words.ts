import type { LocalDate } from '../calendar';
import { dateWords } from '../calendar/when';
import type { Placement } from '../equipment/build';

const WHERE: Record<Placement, string> = {
  fryer: 'beside fryers',
  charbroiler: 'beside charbroilers',
  wok: 'beside woks',
  griddle: 'at griddles',
  bakery: 'in bakeries',
  line: 'on the line',
  back_of_house: 'in the back of house',
  bar: 'at bars',
  outdoors: 'outdoors',
};

export const where = (placement: Placement): string => WHERE[placement];

export { gradeLabel as gradeWord } from '../findings/grades';

/** 12 → "12 weeks"; 4.35 → "4.3 weeks". */
function weeksWord(weeks: number): string {
  const n = Number.isInteger(weeks) ? String(weeks) : weeks.toFixed(1);
  return `${n} ${n === '1' ? 'week' : 'weeks'}`;
}

/** "from 12 weeks to 6". */
export function fromTo(from: number, to: number): string {
  return `from ${weeksWord(from)} to ${Number.isInteger(to) ? to : to.toFixed(1)}`;
}

/** 0.2 → "one in five"; 0.15 → "15 %". */
export function chance(p: number): string {
  const labels: Record<string, string> = {
    '2': 'one in two',
    '3': 'one in three',
    '4': 'one in four',
    '5': 'one in five',
    '10': 'one in ten',
    '20': 'one in twenty',
    '40': 'one in forty',
  };
  const n = 1 / p;
  return labels[String(Math.round(n))] !== undefined && Math.abs(n - Math.round(n)) < 0.02
    ? (labels[String(Math.round(n))] as string)
    : `${Math.round(p * 100)} %`;
}

/** "2026-11-20" → "20 Nov 2026". */
export const dayInWords = (date: LocalDate): string => dateWords(date);

/** A mean time in the unit a person would say it in: 41 → "41 days", 497 → "16 months", 1687 → "4.6 years". */
export function spanInWords(days: number): string {
  if (days < 60) return Math.round(days) === 1 ? 'day' : `${Math.round(days)} days`;
  if (days < 730) return `${Math.round(days / 30.44)} months`;
  return `${(days / 365.25).toFixed(days < 3652 ? 1 : 0)} years`;
}
