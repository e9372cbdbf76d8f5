import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { can } from '@/lib/core/people/access';
import { todayIn, WEEKDAY_NAMES, type LocalDate } from '@/lib/core/calendar';
import { energyPriceWords } from '@/lib/core/equipment/energy-price-words';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { kitchenToEdit, unitsOfKitchen } from '@/lib/features/kitchens/reads/kitchens';
import { kitchenTimeline } from '@/lib/features/kitchens/reads/timeline';
import { unitsOf } from '@/lib/features/people/reads/people';
import { isId } from '@/lib/core/ids/is-id';
import { overdueLimit, shopSettings } from '@/lib/features/shop/reads/settings';
import { nominal, ownUnitOf } from '@/lib/core/measures/entry-units';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink, FileLink } from '@/app/_ui/buttons/button';
import { asTyped, Facts, mailLink, phoneLink } from '@/app/_ui/tables/facts';
import { hoursWords } from '@/app/_ui/words/hours-words';
import { PutBack, TakeOff } from '@/app/_ui/forms/off-file';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { DayRanges } from '../../_components/day-ranges';
import { addClosedDays, putKitchenBack, removeClosedDays, takeKitchenOff } from '../actions';
import { LastAndNext, Timeline } from '../_components/timeline';
import { KitchenChanges } from '../_components/kitchen-changes';
import { UnitTable } from '../_components/unit-table';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';

export const metadata: Metadata = { title: 'Kitchen' };

/** Looked back on, of each sort. */
const HAPPENED = 40;

export default definePage('read:equipment', async ({ db, actor, now, params }) => {
  const kitchen = isId(params.id) ? await kitchenToEdit(db, params.id) : null;
  if (!kitchen) notFound();
  const [line, units, measures, shop, limit] = await Promise.all([
    can(actor, 'read:visit') ? kitchenTimeline(db, kitchen.id, now, HAPPENED) : null,
    unitsOfKitchen(db, kitchen.id),
    unitsOf(db, actor.userId),
    shopSettings(db),
    overdueLimit(db),
  ]);
  const today = todayIn(kitchen.timeZone, now.getTime());
  const writes = can(actor, 'write:equipment');
  const off = kitchen.archivedAt !== null;
  const edits = writes && !off;
  return (
    <>
      <Trail
        items={[
          { href: '/customers', label: 'Customers' },
          { href: `/customers/${kitchen.customerId}`, label: kitchen.customer.name },
        ]}
      />
      <PageHead
        title={kitchen.name}
        lead={kitchen.address}
        actions={
          edits ? (
            <Ways
              id={kitchen.id}
              labels={units.some((u) => !u.archivedAt)}
              book={can(actor, 'book:visit') ? bookingOf(kitchen.id, units, today) : null}
            />
          ) : null
        }
      />
      {off ? (
        <PutBack
          id={kitchen.id}
          version={kitchen.version}
          what="kitchen"
          why="The units that went with it come back with it."
          action={putKitchenBack}
          may={writes}
        />
      ) : null}
      <div className="flex flex-col gap-6">
        {line ? <LastAndNext line={line} timeZone={kitchen.timeZone} today={today} /> : null}
        <Sheet title="Units" aside={<span className="text-soft">{units.filter((u) => !u.archivedAt).length} on file</span>}>
          {units.length === 0 ? (
            <Empty action={edits ? <ButtonLink href={`/units/new?kitchen=${kitchen.id}`}>New unit</ButtonLink> : null}>
              Every reach-in, walk-in and ice machine of this kitchen stands here with its next dates. Put the first one on file.
            </Empty>
          ) : (
            <UnitTable units={units} today={today} limit={limit} />
          )}
        </Sheet>
        <div className="grid grid-cols-1 gap-6 lg:grid-cols-2">
          <GettingIn kitchen={kitchen} />
          <Sheet title="Closed to us">
            <DayRanges
              what="closed days"
              of={{ kitchenId: kitchen.id }}
              ranges={kitchen.blackouts.filter((b) => b.endsOn > today)}
              may={edits}
              add={addClosedDays}
              remove={removeClosedDays}
            />
          </Sheet>
          {edits ? (
            <Sheet title="Something changed" className="lg:col-span-2">
              <KitchenChanges kitchenId={kitchen.id} today={today} />
            </Sheet>
          ) : null}
          <PlaceAndPrices kitchen={kitchen} measures={measures} shop={shop} />
        </div>
        {line ? <Timeline line={line} timeZone={kitchen.timeZone} opensJobs={can(actor, 'read:job')} /> : null}
        {edits ? (
          <TakeOff
            id={kitchen.id}
            version={kitchen.version}
            what="kitchen"
            action={takeKitchenOff}
            consequence="Its units and tasks go out of use with it. Visits, findings and readings stay, and everything can be put back."
          />
        ) : null}
        {writes ? <ChangeHistory changes={await changesOf(db, 'Kitchen', kitchen.id)} timeZone={kitchen.timeZone} /> : null}
      </div>
    </>
  );
});

type Kitchen = NonNullable<Awaited<ReturnType<typeof kitchenToEdit>>>;
type Units = Awaited<ReturnType<typeof unitsOfKitchen>>;
type Shop = Awaited<ReturnType<typeof shopSettings>>;

/** Where all that is due here and not on a visit yet would be booked. */
function bookingOf(kitchen: string, units: Units, today: LocalDate): string {
  const due = units.flatMap((u) => u.tasks).filter((t) => !t.onVisit && t.dueOn <= today);
  return `/week/book?${new URLSearchParams({ kitchen, ...(due.length > 0 && { tasks: due.map((t) => t.id).join(',') }) })}`;
}

function Ways({ id, labels, book }: { id: string; labels: boolean; book: string | null }) {
  return (
    <>
      <ButtonLink href={`/kitchens/${id}/edit`}>Edit kitchen</ButtonLink>
      <ButtonLink href={`/units/new?kitchen=${id}`}>New unit</ButtonLink>
      {labels ? (
        <FileLink href={`/api/labels?kitchen=${id}`} target="_blank">
          Labels to print
        </FileLink>
      ) : null}
      {book ? (
        <ButtonLink href={book} look="primary">
          Book a visit
        </ButtonLink>
      ) : null}
    </>
  );
}

function GettingIn({ kitchen }: { kitchen: Kitchen }) {
  const { preferredWeekday } = kitchen;
  return (
    <Sheet title="Getting in">
      <Facts
        items={[
          ['Access', asTyped(kitchen.accessNotes) || 'No access notes on file.'],
          ['Ask for', kitchen.contactName],
          ['Phone', phoneLink(kitchen.contactPhone)],
          ['E-mail', mailLink(kitchen.contactEmail)],
          [
            'Can spare its equipment',
            hoursWords(kitchen.serviceHours).map((line) => (
              <span key={line} className="block">
                {line}
              </span>
            )),
          ],
          ['Preferred weekday', preferredWeekday === null ? '' : WEEKDAY_NAMES[preferredWeekday]],
        ]}
      />
    </Sheet>
  );
}

function PlaceAndPrices({ kitchen, measures, shop }: { kitchen: Kitchen; measures: MeasureUnits; shop: Shop }) {
  const { lat, lng } = kitchen;
  return (
    <Sheet title="Place and prices" className="lg:col-span-2">
      <Facts
        items={[
          ['Time zone', kitchen.timeZone],
          ['Altitude', nominal('length', ownUnitOf('length', measures), kitchen.altitudeM, 4)],
          ['Position', lat === null ? 'Not on file; travel to it is guessed.' : `${lat.toFixed(4)}, ${lng?.toFixed(4)}`],
          ['Energy price', energyPriceWords(kitchen.energyPricePerKwh, shop)],
          ['Air at the coil on a hot day', nominal('temperature', measures.temperature, kitchen.hotDayAirK)],
        ]}
      />
    </Sheet>
  );
}
