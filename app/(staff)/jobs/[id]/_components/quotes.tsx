import { money } from '@/lib/core/measures/figures';
import { dateWords, dayIn } from '@/lib/core/calendar/when';
import { ButtonLink, FileLink } from '@/app/_ui/buttons/button';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { SendForm } from './send-form';

type Quote = {
  id: string;
  version: number;
  totalCents: number;
  currency: string;
  validUntil: string;
  reason: string;
  sentAt: Date | null;
  sentTo: string;
  supersededAt: Date | null;
  openedAt: Date | null;
  openings: number;
  answer: 'accepted' | 'declined' | null;
  answeredAt: Date | null;
  answeredBy: string;
  answerNote: string;
};
type Props = { jobId: string; quotes: readonly Quote[]; timeZone: string; today: string; mayWrite: boolean; email: string };

/** Every version of the job's quote, the latest first, and what became of it. */
export function Quotes({ jobId, quotes, timeZone, today, mayWrite, email }: Props) {
  const [last] = quotes;
  if (!last && !mayWrite) return null;
  return (
    <div id="quote" className="scroll-mt-4">
      <Sheet
        title="Quote"
        aside={
          mayWrite ? (
            <ButtonLink href={`/jobs/${jobId}/quote`}>
              {last ? (last.sentAt ? 'New version' : 'Go on writing') : 'Write a quote'}
            </ButtonLink>
          ) : null
        }
      >
        {quotes.length === 0 ? <p className="text-soft">None yet.</p> : null}
        <ul>
          {quotes.map((q) => (
            <li key={q.id} className="border-b border-line py-2 last:border-0">
              <span className="flex flex-wrap items-baseline justify-between gap-x-4">
                <span>
                  <b>Version {q.version}</b>, {money(q.totalCents, q.currency)}, valid until {dateWords(q.validUntil)}
                </span>
                <Answer quote={q} today={today} />
              </span>
              <span className="block text-soft">{q.reason}</span>
              <span className="block text-sm text-soft">
                {q.sentAt ? `Sent ${dayIn(q.sentAt, timeZone)}${q.sentTo ? ` to ${q.sentTo}` : ''}. ` : ''}
                {q.sentAt ? `${opened(q, timeZone)} ` : ''}
                {q.answeredAt
                  ? `${q.answer === 'accepted' ? 'Accepted' : 'Declined'} by ${q.answeredBy}, ${dayIn(q.answeredAt, timeZone)}. ${q.answerNote} `
                  : ''}
                <FileLink href={`/api/quotes/${q.id}`} look="quiet">
                  PDF
                </FileLink>
              </span>
              {q === last && !q.sentAt && mayWrite ? <SendForm quoteId={q.id} email={email} /> : null}
            </li>
          ))}
        </ul>
      </Sheet>
    </div>
  );
}

const opened = ({ openedAt, openings }: Quote, timeZone: string): string =>
  openedAt ? `Opened ${openings === 1 ? 'once' : `${openings} times`}, first ${dayIn(openedAt, timeZone)}.` : 'Not opened yet.';

function Answer({ quote: q, today }: { quote: Quote; today: string }) {
  if (q.answer === 'accepted')
    return (
      <State shape="done" tone="cold">
        Accepted
      </State>
    );
  if (q.answer === 'declined') return <State shape="off">Declined</State>;
  if (q.supersededAt)
    return (
      <State shape="off" tone="soft">
        Replaced
      </State>
    );
  if (!q.sentAt) return <State shape="held">Not sent</State>;
  return q.validUntil < today ? (
    <State shape="late" tone="alarm">
      Ran out without an answer
    </State>
  ) : (
    <State shape="later">Waits for an answer</State>
  );
}
