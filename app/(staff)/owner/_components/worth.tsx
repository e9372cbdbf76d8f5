import { whole } from '@/lib/core/measures/figures';
import Link from 'next/link';
import { cleaningSentence, cleaningSources, type CleaningWorth } from '@/lib/core/evidence';
import { momentIn } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';

type Prices = { cleaningCost: number; failureCost: number };
type Props = {
  weighed: { worth: CleaningWorth | null; days: number; unseen: number; more: boolean; at: Date } | null;
  /** What the shop said; null as long as it has not. */
  prices: Prices | null;
  failureChancePerDay: number;
  currency: string;
  timeZone: string;
};

/** Cleaning against what it saves, in a sentence that can be sent on. */
export function Worth({ weighed, prices, failureChancePerDay, currency, timeZone }: Props) {
  if (!prices || !weighed)
    return (
      <p className="mb-6 max-w-[80ch]">
        Whether cleaning pays can&rsquo;t be said: what a cleaning and a breakdown cost is not on file.{' '}
        <Link href="/shop#costs">Set what things cost</Link>
      </p>
    );
  const { worth, days, unseen, more, at } = weighed;
  if (!worth)
    return (
      <p className="mb-6 max-w-[80ch]">
        No coil that somebody has looked at comes due in the next {days} days, so there is nothing to weigh.
      </p>
    );
  const sentence = cleaningSentence(worth, currency, days);
  const mail = `mailto:?subject=${encodeURIComponent('What cleaning saves')}&body=${encodeURIComponent(sentence)}`;
  return (
    <section aria-label="What cleaning saves" className="mb-6 max-w-[80ch]">
      <p className="text-lg">{sentence}</p>
      <div className="mt-1 flex flex-wrap items-start gap-x-5">
        <a href={mail} className="inline-flex min-h-9 items-center">
          Send this on
        </a>
        <details className="open:w-full">
          <summary className="inline-flex min-h-9 items-center font-bold text-cold underline underline-offset-4">
            Where the figures come from
          </summary>
          <ul className="mt-1 flex list-disc flex-col gap-1 pl-5 text-sm text-soft">
            {cleaningSources(worth, prices, currency, failureChancePerDay).map((line) => (
              <li key={line}>{line}</li>
            ))}
            {unseen > 0 ? (
              <li>Without {counted(unseen, 'coil')} that nobody has looked at yet, or that water cools: of these nothing is known.</li>
            ) : null}
            <li>As of {momentIn(at, timeZone)}.</li>
            {more ? <li>Only the {whole(worth.coils)} that come due first are counted.</li> : null}
          </ul>
        </details>
      </div>
    </section>
  );
}
