import { timeAt } from '@/lib/core/calendar/at-offset';
import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { useArrival } from '../../_lib/use-arrival';
import { useWrite } from '../../_lib/use-write';
import { to } from '../../_lib/use-place';
import { VisitState } from '../round-list';
import { Card, ChipLink, Fold, TouchButton } from '../touch';
import { FoodWarnings } from './food-warnings';
import { Jobs } from './jobs';
import { Parts } from './parts';
import { UnitRow } from './unit-row';
import { OfficeAnswers } from '../office-answers';

export function VisitPage({ visit }: { visit: VisitOnFile }) {
  const { kitchen, entries } = visit;
  const { write, busy, now } = useWrite(visit.id);
  const tellWhere = useArrival(visit.id);
  const at = (iso: string) => timeAt(Date.parse(iso), kitchen.utcOffsetMinutes);
  const open = visit.status === 'booked' || visit.status === 'started';
  const onVisit = new Set(visit.tasks.map((t) => t.unitId));
  const planned = visit.units.filter((u) => onVisit.has(u.id));
  const others = visit.units.filter((u) => !onVisit.has(u.id));
  return (
    <div className="flex flex-col gap-4">
      <header>
        <div className="flex flex-wrap items-baseline justify-between gap-x-4">
          <h1>{kitchen.name}</h1>
          <VisitState visit={visit} />
        </div>
        <p className="text-soft">
          {kitchen.customer} · {at(visit.startsAt)}–{at(visit.endsAt)}
        </p>
        <p>{kitchen.address}</p>
      </header>
      <OfficeAnswers visitId={visit.id} />
      {visit.status === 'cancelled' ? (
        <p role="alert" className="font-bold text-alarm">
          The office cancelled this visit: {visit.cancelReason} What you write here is still kept for them.
        </p>
      ) : null}
      {kitchen.accessNotes || kitchen.contactName || visit.note ? (
        <Card title="Getting in">
          <p className="whitespace-pre-line">{kitchen.accessNotes}</p>
          {kitchen.contactName || kitchen.contactPhone ? (
            <p className="mt-2">
              {kitchen.contactName}{' '}
              {kitchen.contactPhone ? (
                <a href={`tel:${kitchen.contactPhone}`} className="inline-flex min-h-12 items-center underline">
                  {kitchen.contactPhone}
                </a>
              ) : null}
            </p>
          ) : null}
          {visit.note ? <p className="mt-2 whitespace-pre-line border-l-4 border-cold pl-3">{visit.note}</p> : null}
        </Card>
      ) : null}
      {entries.arrivedAt ? (
        <p className="font-bold">
          In {at(entries.arrivedAt)}
          {entries.leftAt ? `, out ${at(entries.leftAt)}` : ''}
        </p>
      ) : (
        <TouchButton
          look="primary"
          disabled={busy}
          onClick={() => void write('visit.start', { arrivedAt: now() }).then((kept) => kept && tellWhere())}
        >
          I have arrived
        </TouchButton>
      )}
      <Jobs visit={visit} />
      <Units title="On this visit" visit={visit} units={planned} />
      {others.length > 0 ? (
        <Fold summary={`Other units in this kitchen (${others.length})`}>
          <div className="px-4 pb-4">
            <Units visit={visit} units={others} />
          </div>
        </Fold>
      ) : null}
      {open ? (
        <div className="flex flex-wrap gap-2">
          <ChipLink href={to.addUnit(visit.id)}>Unit not on file</ChipLink>
          <ChipLink href={to.tag()}>Open by tag</ChipLink>
        </div>
      ) : null}
      <Parts visit={visit} />
      <FoodWarnings visit={visit} />
      {open ? (
        <a
          href={to.close(visit.id)}
          className="inline-flex min-h-[3.75rem] items-center justify-center rounded-md border border-cold bg-cold px-5 text-lg font-bold text-on-cold no-underline"
        >
          Close the visit
        </a>
      ) : null}
    </div>
  );
}

function Units({ title, visit, units }: { title?: string; visit: VisitOnFile; units: readonly UnitOnFile[] }) {
  return (
    <section className="flex flex-col gap-2">
      {title ? <h2>{title}</h2> : null}
      <ul className="flex flex-col gap-2">
        {units.map((u) => (
          <li key={u.id}>
            <UnitRow visit={visit} unit={u} />
          </li>
        ))}
      </ul>
    </section>
  );
}
