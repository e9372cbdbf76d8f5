import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { can } from '@/lib/core/people/access';
import { todayIn, WEEKDAY_NAMES } from '@/lib/core/calendar';
import { kitchenToEdit, unitsOfKitchen } from '@/lib/features/kitchens/reads/kitchens';
import { kitchenTimeline } from '@/lib/features/kitchens/reads/timeline';
import { unitsOf } from '@/lib/features/people/reads/people';
import { isId } from '@/lib/core/ids/is-id';
import { overdueLimit, shopSettings } from '@/lib/features/shop/reads/settings';
import { nominal } from '@/lib/core/measures/entry-units';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink, FileLink } from '@/app/_ui/buttons/button';
import { Facts } from '@/app/_ui/tables/facts';
import { hoursWords } from '@/app/_ui/words/hours-words';
import { PutBack, TakeOff } from '@/app/_ui/forms/off-file';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { putKitchenBack, takeKitchenOff } from '../actions';
import { ClosedDays } from '../_components/closed-days';
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
  const due = units.flatMap((u) => u.tasks).filter((t) => !t.onVisit && t.dueOn <= today);
  const book = `/week/book?${new URLSearchParams({ kitchen: kitchen.id, ...(due.length > 0 && { tasks: due.map((t) => t.id).join(',') }) })}`;
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
          writes && !off ? (
            <>
              <ButtonLink href={`/kitchens/${kitchen.id}/edit`}>Edit kitchen</ButtonLink>
              <ButtonLink href={`/units/new?kitchen=${kitchen.id}`}>New unit</ButtonLink>
              {units.some((u) => !u.archivedAt) ? (
                <FileLink href={`/api/labels?kitchen=${kitchen.id}`} target="_blank">
                  Labels to print
                </FileLink>
              ) : null}
              {can(actor, 'book:visit') ? (
                <ButtonLink href={book} look="primary">
                  Book a visit
                </ButtonLink>
              ) : null}
            </>
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
            <Empty action={writes && !off ? <ButtonLink href={`/units/new?kitchen=${kitchen.id}`}>New unit</ButtonLink> : null}>
              Every reach-in, walk-in and ice machine of this kitchen stands here with its next dates. Put the first one on file.
            </Empty>
          ) : (
            <UnitTable units={units} today={today} limit={limit} />
          )}
        </Sheet>
        <div className="grid grid-cols-1 gap-6 lg:grid-cols-2">
          <Sheet title="Getting in">
            <Facts
              items={[
                [
                  'Access',
                  kitchen.accessNotes ? <span className="whitespace-pre-line">{kitchen.accessNotes}</span> : 'No access notes on file.',
                ],
                ['Ask for', kitchen.contactName],
                ['Phone', kitchen.contactPhone ? <a href={`tel:${kitchen.contactPhone}`}>{kitchen.contactPhone}</a> : ''],
                ['E-mail', kitchen.contactEmail ? <a href={`mailto:${kitchen.contactEmail}`}>{kitchen.contactEmail}</a> : ''],
                [
                  'Can spare its equipment',
                  hoursWords(kitchen.serviceHours).map((line) => (
                    <span key={line} className="block">
                      {line}
                    </span>
                  )),
                ],
                ['Preferred weekday', kitchen.preferredWeekday === null ? '' : WEEKDAY_NAMES[kitchen.preferredWeekday]],
              ]}
            />
          </Sheet>
          <Sheet title="Closed to us">
            <ClosedDays kitchenId={kitchen.id} ranges={kitchen.blackouts.filter((b) => b.endsOn > today)} may={writes && !off} />
          </Sheet>
          {writes && !off ? (
            <Sheet title="Something changed" className="lg:col-span-2">
              <KitchenChanges kitchenId={kitchen.id} today={today} />
            </Sheet>
          ) : null}
          <Sheet title="Place and prices" className="lg:col-span-2">
            <Facts
              items={[
                ['Time zone', kitchen.timeZone],
                ['Altitude', nominal('length', measures.temperature === 'F' ? 'ft' : 'm', kitchen.altitudeM, 4)],
                [
                  'Position',
                  kitchen.lat === null ? 'Not on file; travel to it is guessed.' : `${kitchen.lat.toFixed(4)}, ${kitchen.lng?.toFixed(4)}`,
                ],
                [
                  'Energy price',
                  kitchen.energyPricePerKwh === null
                    ? shop?.energyPricePerKwh != null
                      ? `${shop.energyPricePerKwh} ${shop.currency} per kWh, the shop’s`
                      : 'Not on file; no cost is shown.'
                    : `${kitchen.energyPricePerKwh} ${shop?.currency ?? ''} per kWh`,
                ],
                ['Air at the coil on a hot day', nominal('temperature', measures.temperature, kitchen.hotDayAirK)],
              ]}
            />
          </Sheet>
        </div>
        {line ? <Timeline line={line} timeZone={kitchen.timeZone} /> : null}
        {writes && !off ? (
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
