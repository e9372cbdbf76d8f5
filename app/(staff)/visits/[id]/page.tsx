import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { PART_PLACE_LABEL } from '@/lib/core/parts';
import { can } from '@/lib/core/people/access';
import { fromTo } from '@/app/_ui/words/rule-words';
import { questionedOnVisit } from '@/lib/features/entries/reads/questioned';
import { unitsOf } from '@/lib/features/people/reads/people';
import { timeAtVisits } from '@/lib/features/visits/reads/time-on-units';
import { visitReport } from '@/lib/features/visits/reads/visit-report';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Trail } from '@/app/_ui/page/trail';
import { dayIn, dayWords, timeIn } from '@/lib/core/calendar/when';
import { FoodWarningWords } from './_components/food-warning-words';
import { History } from './_components/history';
import { Photos } from './_components/photos';
import { Questions } from './_components/questions';
import { ReviseAgain } from './_components/revise-again';
import { UnitFound } from './_components/unit-found';
import { touched, Untouched } from './_components/untouched';

export const metadata: Metadata = { title: 'What was found' };

const STATUS = {
  booked: ['later', 'Booked'],
  started: ['now', 'Under way'],
  done: ['done', 'Closed'],
  cancelled: ['off', 'Cancelled'],
} as const;

export default definePage('read:visit:own', async ({ db, actor, params }) => {
  const visit = /^[0-9a-f-]{36}$/i.test(params.id ?? '') ? await visitReport(db, params.id as string) : null;
  if (!visit || !can(actor, 'read:visit:own', { ownerId: visit.technician.id })) notFound();
  const units = await unitsOf(db, actor.userId);
  const spent = (await timeAtVisits(db, [visit.id])).get(visit.id);
  const questioned = await questionedOnVisit(db, visit.id);
  const { timeZone } = visit.kitchen;
  const at = (ms: number) => timeIn(ms, timeZone);
  const [shape, words] = STATUS[visit.status];
  const unitName = (id: string) => visit.units.find((u) => u.id === id)?.name ?? 'a unit';
  return (
    <>
      <Trail
        items={[
          { href: `/customers/${visit.kitchen.customer.id}`, label: visit.kitchen.customer.name },
          { href: `/kitchens/${visit.kitchen.id}`, label: visit.kitchen.name },
        ]}
      />
      <PageHead
        title={`${visit.kitchen.name}, ${dayIn(visit.startsAt, timeZone)}`}
        lead={
          <>
            <State shape={shape} tone={visit.status === 'cancelled' ? 'alarm' : 'ink'}>
              {words}
            </State>{' '}
            · {visit.technician.name} ·{' '}
            {visit.arrivedAt
              ? `in ${at(visit.arrivedAt)}${visit.leftAt ? `, out ${at(visit.leftAt)}` : ''}`
              : `booked ${at(visit.startsAt)}–${at(visit.endsAt)}`}
            {visit.cancelReason ? ` · ${visit.cancelReason}` : ''}
          </>
        }
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
            <Sheet title="Rules changed">
              {visit.changes.length === 0 ? <p className="text-soft">No rule changed by this visit.</p> : null}
              <ul className="flex flex-col gap-3">
                {visit.changes.map((c) => (
                  <li key={c.id}>
                    <b>
                      {c.unit.name}, {c.task.toLowerCase()}
                    </b>
                    <span className="block">
                      {fromTo(c.fromRule, c.toRule)}
                      {c.toDueOn ? `, next ${dayWords(c.toDueOn)}` : ''}
                    </span>
                    <span className="block text-sm text-soft">{c.reason}</span>
                  </li>
                ))}
              </ul>
            </Sheet>
            {visit.foodWarnings.length > 0 ? (
              <Sheet title="Food temperature, told on the spot">
                <ul className="flex flex-col gap-2">
                  {visit.foodWarnings.map((w) => (
                    <li key={w.id}>
                      <b>{unitName(w.unitId)}:</b> <FoodWarningWords warning={w} units={units} timeZone={timeZone} />
                    </li>
                  ))}
                </ul>
              </Sheet>
            ) : null}
            <Sheet title="Parts used">
              {visit.parts.length === 0 ? <p className="text-soft">None written down.</p> : null}
              <ul>
                {visit.parts.map((p) => (
                  <li key={p.id}>
                    {p.quantity} × {p.what}
                    {p.place ? <span className="text-soft">, from {PART_PLACE_LABEL[p.place]}</span> : null}
                    {p.unitId ? <span className="text-soft">, {unitName(p.unitId)}</span> : null}
                  </li>
                ))}
              </ul>
            </Sheet>
            <Sheet title="Signature">
              {visit.signature === null ? (
                <p className="text-soft">Not signed.</p>
              ) : visit.signature.nobody ? (
                <p>Nobody was there to sign.</p>
              ) : (
                <figure>
                  {/* eslint-disable-next-line @next/next/no-img-element -- drawn on the spot, part of the record */}
                  <img
                    src={`data:image/png;base64,${visit.signature.png}`}
                    alt={`Signature of ${visit.signature.by}`}
                    className="w-full rounded-md border border-line bg-white"
                  />
                  <figcaption className="mt-1 text-sm text-soft">{visit.signature.by}</figcaption>
                </figure>
              )}
            </Sheet>
          </div>
        </div>
        <History entries={visit.entries} timeZone={timeZone} />
      </div>
    </>
  );
});
