import Link from 'next/link';
import { customerDay, customerTime } from '@/lib/core/calendar/when';
import { wordsIn, type Language } from '@/lib/core/customer-words';
import type { CustomerReply } from '@/lib/core/visits/events';
import { State } from '@/app/_ui/states/state';
import { ConfirmForm } from './confirm-form';
import { placeOf } from './frame';

type Visit = {
  id: string;
  startsAt: Date;
  endsAt: Date;
  customerReply: CustomerReply | null;
  replyStartsAt: Date | null;
  kitchen: { name: string; timeZone: string };
  technician: { name: string };
};
type Props = { visits: readonly Visit[]; token: string; language: Language; nameKitchen: boolean };

/** Booked visits with what the kitchen said to them, and how to say it. */
export function NextVisits({ visits, token, language, nameKitchen }: Props) {
  const say = wordsIn(language).yours.visits;
  const at = (d: Date, zone: string) => customerTime(d, zone, language);
  const when = (d: Date, zone: string) => `${customerDay(d, zone, language)}, ${at(d, zone)}`;
  return (
    <section id="visits" className="scroll-mt-4">
      <h2>{say.heading}</h2>
      {visits.length === 0 ? <p className="mt-2 text-soft">{say.none}</p> : <p className="mt-1 text-soft">{say.power}</p>}
      <ul className="mt-3 flex flex-col gap-3">
        {visits.map((v) => {
          const zone = v.kitchen.timeZone;
          const line = say.line(customerDay(v.startsAt, zone, language), at(v.startsAt, zone), at(v.endsAt, zone));
          return (
            <li key={v.id} className="break-inside-avoid rounded-lg border border-edge bg-sheet p-4">
              <p className="text-lg font-bold">{line}</p>
              <p className="text-soft">
                {nameKitchen ? `${v.kitchen.name}. ` : ''}
                {say.who(v.technician.name)}
              </p>
              {v.customerReply === 'confirmed' ? (
                <p className="mt-1">
                  <State shape="done" tone="cold">
                    {say.confirmed}
                  </State>
                </p>
              ) : null}
              {v.customerReply === 'other_time' && v.replyStartsAt ? (
                <p className="mt-1">{say.asked(when(v.replyStartsAt, zone))}</p>
              ) : null}
              <div className="mt-3 flex flex-wrap items-center gap-x-5 gap-y-2 no-print">
                {v.customerReply === 'confirmed' ? null : <ConfirmForm token={token} visitId={v.id} suits={say.suits} about={line} />}
                <Link href={placeOf(token, `visits/${v.id}`, language)} className="inline-flex min-h-11 items-center">
                  {say.other}
                  <span className="sr-only">: {line}</span>
                </Link>
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
