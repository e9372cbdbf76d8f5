import type { Metadata } from 'next';
import Link from 'next/link';
import { RECORD_KINDS, RECORD_LABEL, type RecordKind } from '@/lib/core/audit/kinds';
import { addDays, instantOf, isLocalDate, localDate } from '@/lib/core/calendar';
import { isId } from '@/lib/core/ids/is-id';
import { isOneOf, labelOf } from '@/lib/core/typed/closed-set';
import { changesPage, peopleToAskFor, type ChangeOfAll } from '@/lib/features/audit/reads/audit';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/doors/define-page';
import { ChangeLine } from '@/app/(staff)/_components/change-history';
import { Button, ButtonLink, FileLink } from '@/app/_ui/buttons/button';
import { Field, Select } from '@/app/_ui/fields/field';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';

export const metadata: Metadata = { title: 'What was changed' };

/** The page on which a record of a kind stands: one for all of them, or one each. */
const PAGE_OF: Record<RecordKind, string | ((id: string) => string)> = {
  Customer: (id) => `/customers/${id}`,
  Kitchen: (id) => `/kitchens/${id}`,
  Unit: (id) => `/units/${id}`,
  Task: (id) => `/units/${id}`,
  UnitChoice: (id) => `/units/${id}/choice`,
  RuleChange: '/rules',
  Visit: (id) => `/visits/${id}/report`,
  User: (id) => `/people/${id}`,
  Certificate: (id) => `/people/${id}`,
  Cylinder: (id) => `/refrigerants/book/${id}`,
  OutboxMessage: '/outbox',
  ImportRun: (id) => `/customers/import/${id}`,
  TravelTime: '/week/travel',
  TaskKind: '/shop',
  ShopSettings: '/shop',
  ArchiveRun: '/shop/archive',
};

const dayOf = (typed: string | undefined) => (typed && isLocalDate(typed) ? localDate(typed) : undefined);
/** Eighteen digits: no more are a number of the database's. */
const lineOf = (typed: string | undefined) => (typed && /^\d{1,18}$/.test(typed) ? BigInt(typed) : undefined);

export default definePage('export:everything', async ({ db, query }) => {
  const zone = await shopTimeZone(db);
  const typed = [dayOf(query.from), dayOf(query.until)] as const;
  // The wrong way round they are the same days, as everywhere a period is asked for.
  const [from, until] = typed[0] && typed[1] && typed[0] > typed[1] ? [typed[1], typed[0]] : typed;
  const kind = isOneOf(RECORD_KINDS, query.kind) ? query.kind : undefined;
  const userId = isId(query.by) ? query.by : undefined;
  const [people, { changes, older }] = await Promise.all([
    peopleToAskFor(db),
    changesPage(db, {
      ...{ kind, userId, before: lineOf(query.before) },
      from: from && new Date(instantOf(from, '00:00', zone)),
      until: until && new Date(instantOf(addDays(until, 1), '00:00', zone)),
    }),
  ]);
  const narrowed = Object.entries({ kind, by: userId, from, until }).flatMap(([k, v]): [string, string][] => (v ? [[k, v]] : []));
  return (
    <>
      <Trail items={[{ href: '/shop', label: 'Shop' }]} />
      <PageHead
        title="What was changed"
        lead="Every change to a record since the shop began, the latest first. Nobody can alter or drop a line of it. Figures stand in SI units, as on file."
        actions={<FileLink href="/shop/changes/export">As a file</FileLink>}
      />
      <form role="search" action="/shop/changes" className="mb-5 grid grid-cols-1 items-end gap-x-3 gap-y-2 no-print sm:flex sm:flex-wrap">
        <Select
          label="Of what"
          name="kind"
          blank="Anything"
          defaultValue={kind}
          options={RECORD_KINDS.map((value) => ({ value, label: RECORD_LABEL[value] }))}
        />
        <Select
          label="By whom"
          name="by"
          blank="Anybody"
          defaultValue={userId}
          options={people.map((p) => ({ value: p.id, label: p.name }))}
        />
        <Field label="From" name="from" type="date" defaultValue={from} />
        <Field label="Until" name="until" type="date" defaultValue={until} />
        <Button type="submit">Show</Button>
        {narrowed.length > 0 ? (
          <Link href="/shop/changes" className="min-h-9 py-1.5">
            Clear
          </Link>
        ) : null}
      </form>
      {changes.length === 0 ? (
        <Empty>{narrowed.length > 0 ? 'Nothing of this was changed.' : 'Nothing was changed yet.'}</Empty>
      ) : (
        <Sheet>
          <ul aria-label="Changes" className="flex flex-col gap-2 text-sm">
            {changes.map((c) => (
              <ChangeLine key={c.id} change={c} timeZone={zone} of={<Changed of={c} />} />
            ))}
          </ul>
          {older ? (
            <div className="mt-4">
              <ButtonLink href={`/shop/changes?${new URLSearchParams([...narrowed, ['before', older]])}`}>Older ones</ButtonLink>
            </div>
          ) : null}
        </Sheet>
      )}
    </>
  );
});

/** The record, with the way to its page where it is still on file. */
function Changed({ of: { kind, record, on } }: { of: ChangeOfAll }) {
  const label = labelOf(RECORD_LABEL, kind);
  const page = isOneOf(RECORD_KINDS, kind) ? PAGE_OF[kind] : undefined;
  if (typeof page === 'string') return <Link href={page}>{record ? `${label}: ${record}` : label}</Link>;
  return page && on ? <Link href={page(on)}>{`${label}: ${record}`}</Link> : label;
}
