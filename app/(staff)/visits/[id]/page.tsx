import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { isId } from '@/lib/core/ids/is-id';
import { can } from '@/lib/core/people/access';
import type { VisitReport } from '@/lib/core/tablet/visit-report';
import { questionedOnVisit } from '@/lib/features/entries/reads/questioned';
import { unitsOf } from '@/lib/features/people/reads/people';
import { timeAtVisits } from '@/lib/features/visits/reads/time-on-units';
import { visitReport } from '@/lib/features/visits/reads/visit-report';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Trail } from '@/app/_ui/page/trail';
import { dayIn, spanIn, timeIn } from '@/lib/core/calendar/when';
import { FoodWarnings, PartsUsed } from './_components/parts-and-food';
import { History } from './_components/history';
import { Photos } from './_components/photos';
import { Questions } from './_components/questions';
import { ReviseAgain } from './_components/revise-again';
import { RulesChanged } from './_components/rules-changed';
import { Signature } from './_components/signature';
import { UnitFound } from './_components/unit-found';
import { touched, Untouched } from './_components/untouched';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'What was found' };

const STATUS = {
  booked: ['later', 'Booked'],
  started: ['now', 'Under way'],
  done: ['done', 'Closed'],
  cancelled: ['off', 'Cancelled'],
} as const;

export default definePage('read:visit:own', async ({ db, actor, params }) => {
  const visit = isId(params.id) ? await visitReport(db, params.id) : null;
  if (!visit || !can(actor, 'read:visit:own', { ownerId: visit.technician.id })) notFound();
  const units = await unitsOf(db, actor.userId);
  const spent = (await timeAtVisits(db, [visit.id])).get(visit.id);
  const questioned = await questionedOnVisit(db, visit.id);
  const { timeZone } = visit.kitchen;
  const nameOf = (id: string) => visit.units.find((u) => u.id === id)?.name ?? 'a unit';
  return (
    <>
      <Trail
        items={[
          { href: `/customers/${visit.kitchen.customer.id}`, label: visit.kitchen.customer.name },
          { href: `/kitchens/${visit.kitchen.id}`, label: visit.kitchen.name },
        ]}
      />
      <PageHead
        title={`${fullKitchenName(visit.kitchen)}, ${dayIn(visit.startsAt, timeZone)}`}
        lead={<Lead visit={visit} />}
        actions={
          can(actor, 'send:report') ? (
            <>
              <ButtonLink href={`/visits/${visit.id}/report`}>Report for the customer</ButtonLink>
              <ButtonLink href={`/week/${visit.id}`}>Booking</ButtonLink>
            </>
          ) : null
        }
      />
      <div className="flex flex-col gap-6">
        {visit.notRevised ? <ReviseAgain visitId={visit.id} allowed={can(actor, 'write:rules')} /> : null}
        <Questions entries={questioned} units={units} may={can(actor, 'settle:entry')} />
        <div className="grid grid-cols-1 gap-6 lg:grid-cols-[minmax(0,1fr)_22rem]">
          <div className="flex flex-col gap-6">
            {visit.units.length === 0 ? (
              <Empty>
                Nothing has come in from this visit yet. What the technician finds appears here as soon as the tablet has signal.
              </Empty>
            ) : null}
            {visit.units.filter(touched).map((u) => (
              <UnitFound
                key={u.id}
                unit={u}
                units={units}
                timeZone={timeZone}
                technician={visit.technician.name}
                spent={spent?.get(u.id)}
              />
            ))}
            {visit.photos.length > 0 ? (
              <Sheet title="Pictures of no unit in particular">
                <Photos photos={visit.photos} timeZone={timeZone} whole="The kitchen" />
              </Sheet>
            ) : null}
            <Untouched units={visit.units.filter((u) => !touched(u))} />
          </div>
          <div className="flex flex-col gap-6">
            <RulesChanged changes={visit.changes} />
            <FoodWarnings warnings={visit.foodWarnings} nameOf={nameOf} units={units} timeZone={timeZone} />
            <PartsUsed parts={visit.parts} nameOf={nameOf} />
            <Signature of={visit.signature} />
          </div>
        </div>
        <History entries={visit.entries} timeZone={timeZone} />
      </div>
    </>
  );
});

/** How it stands, who has it, and when somebody was there, or else when it is booked. */
function Lead({ visit }: { visit: VisitReport }) {
  const at = (ms: number) => timeIn(ms, visit.kitchen.timeZone);
  const [shape, label] = STATUS[visit.status];
  const there = visit.arrivedAt
    ? [`in ${at(visit.arrivedAt)}`, visit.leftAt ? `out ${at(visit.leftAt)}` : ''].filter(Boolean).join(', ')
    : `booked ${spanIn(visit.startsAt, visit.endsAt, visit.kitchen.timeZone)}`;
  return (
    <>
      <State shape={shape} tone={visit.status === 'cancelled' ? 'alarm' : 'ink'}>
        {label}
      </State>{' '}
      · {[visit.technician.name, there, visit.cancelReason].filter(Boolean).join(' · ')}
    </>
  );
}
