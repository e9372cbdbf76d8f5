import type { LocalDate } from '@/lib/core/calendar';
import { counted } from '@/lib/core/wording/counted';
import type { Mark } from '@/app/_ui/states/state';
import type { GridVisit } from './grid-item';

/** A visit as the week's page knows it; what is needed to move it only where it is still booked. */
export type WeekVisit = Omit<GridVisit, 'href' | 'work' | 'look' | 'movable'> & {
  units: number;
  tasks: number;
  timeZone: string;
  version: number | null;
};

/** A list in which each member stands once. */
function once<T>(keyOf: (value: T) => string) {
  const at = new Map<string, number>();
  const all: T[] = [];
  const place = (value: T): number => {
    const key = keyOf(value);
    const found = at.get(key) ?? all.push(value) - 1;
    at.set(key, found);
    return found;
  };
  return { all, place };
}

/**
 * A week as a page sends it to the browser, which draws hundreds of visits from it: people, days, kitchens and marks are said once,
 * each visit is a list of figures. With its names beside each figure it was the larger half of the page.
 */
export function sentWeek(visits: readonly WeekVisit[]) {
  const people = once<string>((id) => id);
  const days = once<LocalDate>((d) => d);
  const kitchens = once<[kitchen: string, customer: string, timeZone: string]>((k) => JSON.stringify(k));
  const marks = once<Mark>((m) => JSON.stringify(m));
  const sent = visits.map((v) => {
    const facts = [people.place(v.technicianId), days.place(v.date), v.from, v.to, v.driveMinutes === null ? null : Math.round(v.driveMinutes), kitchens.place([v.kitchen, v.customer, v.timeZone]), v.units, v.tasks, v.version] as const; // prettier-ignore
    return [v.key, v.time, facts, v.marks.map(marks.place)] as const;
  });
  return { people: people.all, days: days.all, kitchens: kitchens.all, marks: marks.all, visits: sent };
}
export type SentWeek = ReturnType<typeof sentWeek>;

export type DrawnVisit = GridVisit & { timeZone: string; version: number | null };

/** The visits of a sent week as the picture draws them. */
export const drawnWeek = ({ people, days, kitchens, marks, visits }: SentWeek): DrawnVisit[] =>
  visits.flatMap(([key, time, [person, day, from, to, driveMinutes, place, units, tasks, version], marked]): DrawnVisit[] => {
    const [technicianId, date, names] = [people[person], days[day], kitchens[place]];
    if (technicianId === undefined || date === undefined || names === undefined) return [];
    const [kitchen, customer, timeZone] = names;
    return [
      {
        ...{ key, technicianId, date, from, to, driveMinutes, time, kitchen, customer, timeZone, version },
        href: `/week/${key}`,
        work: `${counted(units, 'unit')}, ${counted(tasks, 'task')}`,
        marks: marked.flatMap((m) => marks[m] ?? []),
        look: 'stands',
        movable: version !== null,
      },
    ];
  });
