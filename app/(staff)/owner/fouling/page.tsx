import type { Metadata } from 'next';
import Link from 'next/link';
import { todayIn } from '@/lib/core/calendar';
import { PLACEMENT_LABEL, PLACEMENTS, UNIT_KIND_LABEL, UNIT_KINDS } from '@/lib/core/equipment/build';
import { filterAddress, foulingFilter } from '@/lib/core/owner/fouling-filter';
import { monthlyLoss } from '@/lib/core/evidence';
import { labelOf } from '@/lib/core/typed/closed-set';
import { counted } from '@/lib/core/wording/counted';
import { foulingRanking, rankingChoices, type RankedPlace } from '@/lib/features/owner/reads/ranking';
import { foodWarnings, replayOnFile } from '@/lib/features/owner/reads/replay';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { dbForLongReads } from '@/lib/server/process/long-reads';
import { definePage } from '@/lib/server/doors/define-page';
import { Button, FileLink } from '@/app/_ui/buttons/button';
import { Field, Select } from '@/app/_ui/fields/field';
import { Fold } from '@/app/_ui/page/fold';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { FASTER_SLOWER, MorePages } from '../_components/more-pages';
import { OwnerTabs } from '../_components/owner-tabs';
import { PlanAgainstCalendar } from '../_components/plan-against-calendar';
import { RankingTable, type RankingLine } from './_components/ranking-table';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Who fouls fastest' };

const PAGE = 40;

export default definePage('read:fouling', async ({ now, query }) => {
  const db = await dbForLongReads();
  const shop = await shopSettings(db);
  const filter = foulingFilter(query, todayIn(shop?.timeZone ?? 'UTC', now.getTime()));
  const skip = Math.max(0, Math.floor(Number(query.skip ?? 0)) || 0);
  const [{ rows, total }, choices, worth, food] = await Promise.all([
    foulingRanking(db, filter, { take: PAGE, skip }),
    rankingChoices(db),
    replayOnFile(db),
    foodWarnings(db, new Date(now.getTime() - 365 * 86_400_000)),
  ]);
  const what = filter.by === 'unit' ? 'coil' : 'kitchen';
  const address = (from: number) => `/owner/fouling?${filterAddress(query, from > 0 ? { skip: String(from) } : {})}`;
  return (
    <>
      <PageHead
        title="Who fouls fastest"
        lead="By what coils lose of their heat transfer in 30 days. Where beliefs overlap, the order is not known, and the places say so."
        actions={<FileLink href={`/owner/fouling/export?${filterAddress(query)}`}>As a file</FileLink>}
      />
      <OwnerTabs at="/owner/fouling" />
      <FilterForm filter={filter} query={query} choices={choices} />
      {rows.length === 0 ? (
        <Empty>
          {Object.keys(filter).length > 1
            ? 'Not enough visits yet: nobody has looked at such a coil.'
            : 'Not enough visits yet. The ranking fills with the first closed visits.'}
        </Empty>
      ) : (
        <div className="flex flex-col gap-6">
          <Sheet title={`${counted(total, what)}, fastest first`}>
            <RankingTable rows={rows.map((r) => lineOf(r, filter.by))} by={filter.by} />
            <MorePages
              earlier={skip > 0 ? address(Math.max(0, skip - PAGE)) : null}
              later={skip + PAGE < total ? address(skip + PAGE) : null}
              labels={FASTER_SLOWER}
            />
          </Sheet>
          <PlanAgainstCalendar of={worth} food={food} timeZone={shop?.timeZone ?? 'UTC'} />
          <HowReckoned />
        </div>
      )}
    </>
  );
});

const kindWords = ({ kind, placement }: RankedPlace) =>
  [kind && labelOf(UNIT_KIND_LABEL, kind), placement && labelOf(PLACEMENT_LABEL, placement)].filter(Boolean).join(', ');

/** What a line of the table tells, and no more: it is sent. */
const lineOf = (r: RankedPlace, by: 'kitchen' | 'unit'): RankingLine => ({
  id: r.id,
  name: r.name,
  about: by === 'unit' ? `${kitchenInFull(r)}. ${kindWords(r)}` : r.customer === r.name ? '' : r.customer,
  units: r.units,
  evidence: r.evidence,
  best: r.best,
  worst: r.worst,
  lost: monthlyLoss([{ ratePerDay: r.rate, rateSdPerDay: r.sd }]) ?? { value: 0, lo: 0, hi: 0 },
});

const named = (list: { id: string; name: string }[]) => list.map(({ id, name }) => ({ value: id, label: name }));

type FilterProps = {
  filter: ReturnType<typeof foulingFilter>;
  query: Record<string, string | undefined>;
  choices: Awaited<ReturnType<typeof rankingChoices>>;
};

function FilterForm({ filter, query, choices }: FilterProps) {
  return (
    <form role="search" action="/owner/fouling" className="mb-5 grid grid-cols-2 items-end gap-x-3 gap-y-2 no-print sm:flex sm:flex-wrap">
      <Select
        label="Ranked"
        name="by"
        defaultValue={filter.by}
        options={[
          { value: 'kitchen', label: 'Kitchens' },
          { value: 'unit', label: 'Coils' },
        ]}
      />
      <Select label="Customer" name="customer" blank="Any" defaultValue={filter.customer ?? ''} options={named(choices.customers)} />
      <Select
        label="Kind"
        name="kind"
        blank="Any"
        defaultValue={filter.kind ?? ''}
        options={UNIT_KINDS.map((k) => ({ value: k, label: UNIT_KIND_LABEL[k] }))}
      />
      <Select
        label="Placement"
        name="place"
        blank="Any"
        defaultValue={filter.place ?? ''}
        options={PLACEMENTS.map((p) => ({ value: p, label: PLACEMENT_LABEL[p] }))}
      />
      <Select label="Looked at by" name="who" blank="Anybody" defaultValue={filter.who ?? ''} options={named(choices.people)} />
      <Field label="Looked at from" name="from" type="date" defaultValue={query.from ?? ''} />
      <Field label="Until" name="until" type="date" defaultValue={query.until ?? ''} />
      <Button type="submit">Show</Button>
      <Link href="/owner/fouling" className="min-h-9 py-1.5">
        Clear
      </Link>
    </form>
  );
}

function HowReckoned() {
  return (
    <Fold id="how" title="How this is reckoned">
      <div className="flex max-w-[80ch] flex-col gap-3">
        <p>
          Each coil’s rate is what its grades and readings say, drawn to its kitchen and its place where they are few; a kitchen’s is the
          mean of its coils. The figure is the share of heat transfer lost in 30 days, 1 − e<sup>−30 × rate</sup>, with its 80 % band.
        </p>
        <p>
          <b>Place.</b> “3 to 9” means: only two surely foul faster, and all beyond the ninth surely slower. Sure is nine chances in ten,
          from both beliefs and their uncertainty, taken as independent. A single place is told only where no other could have it.
        </p>
        <p>“Looked at” narrows to coils that were graded in these days or by this person; their rates rest on all that is on file.</p>
      </div>
    </Fold>
  );
}
