import type { Metadata } from 'next';
import Link from 'next/link';
import { isLocalDate } from '@/lib/core/calendar';
import { BUCKETS, type Bucket } from '@/lib/core/due/buckets';
import { PLACEMENTS } from '@/lib/core/equipment/build';
import { dueCounts, duePage, toGoBackTo, zonesOnFile, type DueCursor, type DueFilter } from '@/lib/features/due/reads';
import { anyUnit } from '@/lib/features/equipment/reads/units';
import { kitchenToEdit } from '@/lib/features/kitchens/reads/kitchens';
import { isId } from '@/lib/core/ids/is-id';
import { openChangeQuestions } from '@/lib/features/intervals/reads/change-questions';
import { overdueLimit } from '@/lib/features/shop/reads/settings';
import { taskKinds } from '@/lib/features/tasks/reads/task-kinds';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead } from '@/app/_ui/page/sheet';
import { BucketTabs } from './_components/bucket-tabs';
import { ChangeQuestions } from './_components/change-questions';
import { DueTable } from './_components/due-table';
import { Filters } from './_components/filters';
import { GoBack } from './_components/go-back';
import { addressOf } from './_components/address';

export const metadata: Metadata = { title: 'Due' };

const KITCHENS = 25;
/** To go back to: at first, and where all are asked for. */
const GO_BACK = { few: 5, all: 50 };
const QUESTIONS = 5;

type Query = Record<string, string | undefined>;

function filterOf(query: Query, kinds: readonly { key: string }[], kitchenId?: string): DueFilter {
  const text = (s: string | undefined) => s?.trim().slice(0, 80) || undefined;
  return {
    q: text(query.q),
    area: text(query.area),
    kindKey: kinds.find((k) => k.key === query.kind)?.key,
    placement: PLACEMENTS.find((p) => p === query.place),
    kitchenId,
    booked: query.booked === '1',
  };
}

const cursorOf = (q: Query): DueCursor | undefined =>
  q.from && isLocalDate(q.from) && isId(q.after) ? { soonest: q.from, kitchenId: q.after } : undefined;

const mostToGoBack = (query: Query) => (query.goback === 'all' ? GO_BACK.all : GO_BACK.few);
const allToGoBack = (query: Query) => (query.goback === 'all' ? null : addressOf(query, { goback: 'all' }));
const isNarrowed = (f: DueFilter) => Boolean(f.q ?? f.area ?? f.kindKey ?? f.placement);

export default definePage('read:due', async ({ db, now, actor, query: asked }) => {
  const [kinds, zones, limit, kitchen] = await Promise.all([
    taskKinds(db, { activeOnly: true }),
    zonesOnFile(db, now),
    overdueLimit(db),
    isId(asked.kitchen) ? kitchenToEdit(db, asked.kitchen) : null,
  ]);
  // A kitchen that is not on file narrows nothing, here or in any address from here.
  const query: Query = { ...asked, kitchen: kitchen?.id };
  const filter = filterOf(query, kinds, kitchen?.id);
  const [toBook, all] = await Promise.all([
    dueCounts(db, zones, { ...filter, booked: false }, limit),
    dueCounts(db, zones, { ...filter, booked: true }, limit),
  ]);
  const counts = filter.booked ? all : toBook;
  const bucket: Bucket = BUCKETS.find((b) => b === query.show) ?? BUCKETS.find((b) => counts[b].tasks > 0) ?? 'overdue';
  const after = cursorOf(query);
  const most = mostToGoBack(query);
  const [page, goBack, questions] = await Promise.all([
    duePage(db, zones, bucket, filter, { after, limit: KITCHENS }),
    after ? [] : toGoBackTo(db, zones, bucket, filter, { now, limit: most + 1 }),
    openChangeQuestions(db, actor, QUESTIONS),
  ]);
  const narrowed = isNarrowed(filter);
  const bare = zones.length > 0 && page.kitchens.length === 0 && !(await anyUnit(db));
  const at = { ...query, show: bucket };

  return (
    <>
      <PageHead
        title="What is due"
        lead="Tasks that nobody has booked yet, by kitchen, the longest overdue first. Choose a kitchen’s tasks and book them."
      />
      <OnlyKitchen kitchen={kitchen} at={at} />
      <BucketTabs toBook={toBook} all={all} bucket={bucket} limit={limit} query={query} />
      <Filters query={at} kinds={kinds.map((k) => ({ value: k.key, label: k.label }))} narrowed={narrowed} />
      <ChangeQuestions questions={questions} />
      <GoBack lines={goBack} most={most} all={allToGoBack(at)} />
      {page.kitchens.length > 0 ? (
        <DueTable key={addressOf(at, {})} kitchens={page.kitchens} limit={limit} />
      ) : (
        <Empty
          action={
            zones.length === 0 ? (
              <ButtonLink href="/customers">Put kitchens on file</ButtonLink>
            ) : bare ? (
              <ButtonLink href="/customers">Go to the kitchens</ButtonLink>
            ) : narrowed ? (
              <ButtonLink href={addressOf({ show: bucket, kitchen: kitchen?.id }, {})}>Show all</ButtonLink>
            ) : null
          }
        >
          {nothing(bucket, narrowed, zones.length, bare)}
        </Empty>
      )}
      <Turn at={at} next={page.next} back={after !== undefined} />
    </>
  );
});

function nothing(bucket: Bucket, narrowed: boolean, zones: number, bare: boolean): string {
  if (zones === 0)
    return 'Once kitchens and their units are on file, what is due stands here. Put the first customer on file, or bring in a sheet.';
  if (bare) return 'No unit is on file yet. Open a kitchen and put its units there: what is due of each stands here then.';
  if (narrowed) return 'Nothing here fits what you asked for. Loosen a filter.';
  if (bucket === 'overdue') return 'Nothing is overdue that is not booked. That is how it should be.';
  return bucket === 'week'
    ? 'Nothing more falls due this week that is not booked.'
    : 'Nothing falls due in the next four weeks that is not booked.';
}

type At = Query & { show: Bucket };

function OnlyKitchen({ kitchen, at }: { kitchen: { name: string; customer: { name: string } } | null; at: At }) {
  if (!kitchen) return null;
  return (
    <p className="mb-3">
      Only <b>{kitchen.name}</b>
      {kitchen.customer.name === kitchen.name ? '' : ` of ${kitchen.customer.name}`}.{' '}
      <Link href={addressOf(at, { kitchen: undefined, from: undefined, after: undefined })}>Show all kitchens</Link>
    </p>
  );
}

/** On to the next page of kitchens, and back to the first. */
function Turn({ at, next, back }: { at: At; next: DueCursor | null | undefined; back: boolean }) {
  if (!next && !back) return null;
  return (
    <p className="mt-4 flex gap-2">
      {back ? <ButtonLink href={addressOf(at, { from: undefined, after: undefined })}>Back to the first</ButtonLink> : null}
      {next ? <ButtonLink href={addressOf(at, { from: next.soonest, after: next.kitchenId })}>More kitchens</ButtonLink> : null}
    </p>
  );
}
