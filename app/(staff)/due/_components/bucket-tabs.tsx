import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import { BUCKET_LABEL, BUCKETS, type Bucket } from '@/lib/core/due/buckets';
import { State } from '@/app/_ui/states/state';
import { addressOf } from './address';

type Count = { tasks: number; kitchens: number };
type Counts = Record<Bucket | 'pastLimit', Count>;
/** `all` counts what stands on a visit too. */
type Props = { toBook: Counts; all: Counts; bucket: Bucket; limit: number; query: Record<string, string | undefined> };

/** The three parts of the list with how much each holds. */
export function BucketTabs({ toBook, all, bucket, limit, query }: Props) {
  const counts = toBook;
  return (
    <>
      <nav aria-label="Parts of the list" className="mb-3 grid grid-cols-3 gap-2">
        {BUCKETS.map((b) => (
          <Link
            key={b}
            href={addressOf(query, { show: b, from: undefined, after: undefined })}
            aria-current={b === bucket ? 'page' : undefined}
            className={`rounded-md border px-2.5 py-2 sm:px-4 sm:py-2.5 text-ink no-underline ${b === bucket ? 'border-cold bg-cold-wash' : 'border-line bg-sheet hover:border-edge'}`}
          >
            <span className="block font-bold">{BUCKET_LABEL[b]}</span>
            <span className="text-soft">
              {all[b].tasks === 0 ? 'nothing' : counted(all[b].tasks, 'task')}
              {all[b].tasks > 0 ? <span className="max-sm:hidden"> in {counted(all[b].kitchens, 'kitchen')}</span> : null}
              {all[b].tasks > 0 ? (
                <span className="block text-sm">
                  {toBook[b].tasks} to book<span className="max-sm:hidden">, {all[b].tasks - toBook[b].tasks} on a visit</span>
                </span>
              ) : null}
            </span>
          </Link>
        ))}
      </nav>
      {counts.pastLimit.tasks > 0 ? (
        <p className="mb-4">
          <State shape="late" tone="alarm">
            {counted(counts.pastLimit.tasks, 'task')} in {counted(counts.pastLimit.kitchens, 'kitchen')}
          </State>{' '}
          <span className="text-soft">more than {limit} days over, the limit of this shop. They come first.</span>
        </p>
      ) : null}
    </>
  );
}
