import Link from 'next/link';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { customerDay, customerFullDate } from '@/lib/core/calendar/when';
import { wordsIn, type Language } from '@/lib/core/customer-words';
import { type JobState, type JobUrgency } from '@/lib/core/jobs';
import { money } from '@/lib/core/measures/figures';
import { placeOf } from './frame';

type Kitchen = { name: string; timeZone: string };
type Job = {
  id: string;
  what: string;
  urgency: JobUrgency;
  state: JobState;
  createdAt: Date;
  units: string[];
  kitchen: Kitchen;
  visit: { startsAt: Date } | null;
};
type Quote = {
  id: string;
  version: number;
  totalCents: number;
  currency: string;
  validUntil: Date;
  answeredAt: Date | null;
  job: { number: number; what: string; kitchen: Kitchen };
};

/** Quotes that nobody answered yet. Nothing where there are none. */
export function OpenQuotes({ quotes, token, language }: { quotes: readonly Quote[]; token: string; language: Language }) {
  const say = wordsIn(language).yours.quotes;
  if (quotes.length === 0) return null;
  return (
    <section>
      <h2>{say.heading}</h2>
      <ul className="mt-2 flex flex-col gap-2">
        {quotes.map((q) => (
          <li key={q.id} className="rounded-lg border-2 border-cold bg-sheet p-4">
            <Link href={placeOf(token, `quotes/${q.id}`, language)} className="font-bold">
              {say.open(`${q.job.number}-${q.version}`, money(q.totalCents, q.currency))}
            </Link>
            <span className="block">{q.job.what}</span>
            <span className="block text-soft">
              {q.job.kitchen.name}, {q.answeredAt ? say.choose : say.until(customerFullDate(toLocalDate(q.validUntil), language))}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Everything that is asked for and not done, and where it stands. */
export function OpenWork({ jobs, language, nameKitchen }: { jobs: readonly Job[]; language: Language; nameKitchen: boolean }) {
  const texts = wordsIn(language);
  const say = texts.yours.work;
  return (
    <section>
      <h2>{say.heading}</h2>
      {jobs.length === 0 ? <p className="mt-2 text-soft">{say.none}</p> : null}
      <ul className="mt-2 flex flex-col">
        {jobs.map((j) => {
          const zone = j.kitchen.timeZone;
          const stands =
            j.state === 'booked' && j.visit ? say.bookedFor(customerDay(j.visit.startsAt, zone, language)) : say.state[j.state];
          return (
            <li key={j.id} className="break-inside-avoid border-b border-line py-2 last:border-0">
              <b>{j.units.length > 0 ? `${j.units.join(', ')}: ${j.what}` : j.what}</b>
              <span className="block text-soft">
                {nameKitchen ? `${j.kitchen.name}. ` : ''}
                {texts.job[j.urgency]}. {stands}, {say.since(customerDay(j.createdAt, zone, language))}.
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
