import { dateIn, dayIn } from '@/lib/core/calendar/when';
import { LANGUAGE_LABEL, type Language } from '@/lib/core/customer-words/languages';
import { counted } from '@/lib/core/wording/counted';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { MakePageForm } from './make-page-form';
import { takePageBack } from '../../actions';
import { TakeBackForm } from '@/app/_ui/report/take-back-form';

type Page = {
  id: string;
  holder: string;
  toEmail: string;
  language: Language;
  answersQuotes: boolean;
  createdAt: Date;
  expiresAt: Date;
  revokedAt: Date | null;
  lastOpenedAt: Date | null;
  openings: number;
  kitchen: { name: string } | null;
};
type Props = {
  customer: { id: string; email: string; contactName: string; language: Language };
  kitchens: { id: string; name: string }[];
  pages: readonly Page[];
  timeZone: string;
  now: Date;
};

/** Who has a link to a page of this customer's kitchens, and a form to make one more. */
export function PagesSheet({ customer, kitchens, pages, timeZone, now }: Props) {
  const at = (d: Date) => dayIn(d, timeZone);
  return (
    <Sheet title="Their own page">
      <p className="-mt-2 mb-3 max-w-[75ch] text-soft">
        Whoever has the link sees next visits, reports that were sent, quotes and open work of their kitchens, can confirm a visit or ask
        for another time, and can ask to be rung: that opens a job here.
      </p>
      <ul className="flex flex-col">
        {pages.map((p) => (
          <li key={p.id} className="flex flex-wrap items-start justify-between gap-x-6 gap-y-1 border-b border-line py-2 last:border-0">
            <span>
              <b>{p.holder}</b>, {p.kitchen?.name ?? 'all kitchens'}, in {LANGUAGE_LABEL[p.language]}
              {p.answersQuotes ? ', may accept quotes' : ''}
              <span className="block text-sm text-soft">
                Made {at(p.createdAt)}
                {p.toEmail ? `, sent to ${p.toEmail}` : ''}, good until {dateIn(p.expiresAt, timeZone)}.
              </span>
            </span>
            <span className="flex flex-col items-start sm:items-end">
              {p.revokedAt ? (
                <State shape="off" tone="soft">
                  Taken back {at(p.revokedAt)}
                </State>
              ) : p.expiresAt <= now ? (
                <State shape="off" tone="soft">
                  Too old to open
                </State>
              ) : (
                <>
                  <State shape={p.lastOpenedAt ? 'done' : 'later'} tone="soft">
                    {p.lastOpenedAt ? `Opened ${counted(p.openings, 'time')}, last ${at(p.lastOpenedAt)}` : 'Not opened yet'}
                  </State>
                  <TakeBackForm action={takePageBack} id={p.id} whose={p.holder} />
                </>
              )}
            </span>
          </li>
        ))}
      </ul>
      {kitchens.length > 0 ? (
        <MakePageForm customer={customer} kitchens={kitchens} />
      ) : (
        <p className="text-soft">Put a kitchen of theirs on file first.</p>
      )}
    </Sheet>
  );
}
