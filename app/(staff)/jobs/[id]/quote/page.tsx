import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { addDays, todayIn } from '@/lib/core/calendar';
import { dateWords, dayIn } from '@/lib/core/calendar/when';
import { ASPECT_LABEL } from '@/lib/core/findings/grades';
import { isId } from '@/lib/core/ids/is-id';
import { isOpen } from '@/lib/core/jobs';
import { jobPage } from '@/lib/features/jobs/reads/job-page';
import { hoursOfJobs } from '@/lib/features/jobs/reads/work-done';
import { addTimes, timeWords } from '@/lib/core/visits/time-on-units';
import { photosToChoose, usualPrices } from '@/lib/features/jobs/reads/quotes';
import { partsOnFile } from '@/lib/features/parts/reads/parts';
import { unitsOf } from '@/lib/features/people/reads/people';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Trail } from '@/app/_ui/page/trail';
import { QuoteForm } from './_components/quote-form';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Quote' };

const VALID_DAYS = 30;

export default definePage('write:job', async ({ db, actor, now, params }) => {
  const job = isId(params.id) ? await jobPage(db, params.id) : null;
  if (!job || !isOpen(job.state)) notFound();
  const zone = job.kitchen.timeZone;
  const today = todayIn(zone, now.getTime());
  const last = job.quotes[0];
  const photos = await photosToChoose(
    db,
    job.kitchenId,
    job.units.map((u) => u.id),
  );
  const shop = await shopSettings(db);
  const usual = await hoursOfJobs(db, now);
  const [prices, units] = await Promise.all([usualPrices(db), unitsOf(db, actor.userId)]);
  const spent = job.work.visits.flatMap((v) => v.time ?? []);
  const covered = job.units.flatMap((u) => u.warranties.filter((w) => w.until >= today).map((w) => ({ ...w, unit: u.name })));
  return (
    <>
      <Trail
        items={[
          { href: '/jobs', label: 'Jobs' },
          { href: `/jobs/${job.id}`, label: `Job ${job.number}` },
        ]}
      />
      <PageHead
        title={last && !last.sentAt ? `Quote ${job.number}-${last.version}` : `New quote for job ${job.number}`}
        lead={`${fullKitchenName(job.kitchen)}: ${job.what}`}
      />
      {covered.length > 0 ? (
        <div role="note" className="mb-6 rounded-lg border-2 border-alarm bg-sheet p-4">
          <State shape="ask" tone="alarm">
            Somebody else may pay
          </State>
          <ul>
            {covered.map((w) => (
              <li key={w.id}>
                {w.unit}, {w.what}: under warranty until {dateWords(w.until)}. {w.note}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      <QuoteForm
        jobId={job.id}
        currency={shop?.currency ?? 'USD'}
        draft={
          last
            ? {
                lines: last.lines,
                taxPercent: last.taxPercent,
                validUntil: last.validUntil < today ? addDays(today, VALID_DAYS) : last.validUntil,
                reason: last.reason,
                photoIds: last.photoIds,
              }
            : { lines: [], taxPercent: prices.taxPercent, validUntil: addDays(today, VALID_DAYS), reason: '', photoIds: [] }
        }
        hours={[
          spent.length > 0 ? `At its units so far ${timeWords(addTimes(spent))}.` : '',
          usual
            ? `The last ${usual.jobs} jobs done took ${usual.median.toFixed(1)} h at their units (four in five between ${usual.lo.toFixed(1)} and ${usual.hi.toFixed(1)} h).`
            : '',
        ].filter(Boolean)}
        usual={prices}
        weighedIn={units.mass === 'oz' ? 'lb' : 'kg'}
        parts={(await partsOnFile(db)).map(({ number, name, priceCents, inVans, inShop }) => ({
          number,
          name,
          priceCents,
          inVans,
          inShop,
        }))}
        photos={photos.flatMap((p) =>
          p.fileId
            ? [{ id: p.id, fileId: p.fileId, caption: `${p.aspect ? ASPECT_LABEL[p.aspect] : 'Unit'}, ${dayIn(p.takenAt, zone)}` }]
            : [],
        )}
      />
    </>
  );
});
