'use client';

import Link from 'next/link';
import { useState, useTransition } from 'react';
import { dayIn, dayWords, momentIn, momentSpanIn, spanIn } from '@/lib/core/calendar/when';
import type { LocalDate } from '@/lib/core/calendar';
import { counted } from '@/lib/core/wording/counted';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { putAway } from '../actions';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

type Visit = {
  id: string;
  version: number;
  startMs: number;
  endMs: number;
  timeZone: string;
  kitchen: string;
  customer: string;
  confirmed: boolean;
  emergency: boolean;
  tasks: number;
  contact: string;
  phone: string;
  email: string;
  to: { technicianId: string; technician: string; startMs: number; endMs: number; changes: 'who' | 'time' | 'day' } | null;
  why: 'skill' | 'fixed' | 'full' | 'started' | null;
};
type Props = { who: { id: string; name: string }; from: LocalDate; to: LocalDate; visits: Visit[] };

const WHY = {
  skill: 'Nobody else is on file for what it needs.',
  fixed: 'It is fixed to its time, and nobody else is free then.',
  full: 'Nobody able is free within ten days.',
  started: 'It has been started: open it and give it to someone else.',
} as const;

/** What stands on the days away: where each visit can go, whom to tell, and what has to be done by telephone. */
export function Away({ who, from, to, visits }: Props) {
  const offered = visits.filter((v) => v.to);
  const stuck = visits.filter((v) => !v.to);
  const [chosen, setChosen] = useState(() => new Set(offered.map((v) => v.id)));
  const [reason, setReason] = useState('');
  const [busy, start] = useTransition();
  const [wrong, setWrong] = useState('');
  const [moved, setMoved] = useState<number | null>(null);
  const days = from === to ? dayWords(from) : `${dayWords(from)} to ${dayWords(to)}`;
  const toggle = (id: string) => {
    const next = new Set(chosen);
    if (!next.delete(id)) next.add(id);
    setChosen(next);
  };
  const put = () =>
    start(async () => {
      const r = await putAway({
        userId: who.id,
        from,
        to,
        reason,
        moves: offered.flatMap((v) =>
          v.to && chosen.has(v.id)
            ? [{ visitId: v.id, version: v.version, technicianId: v.to.technicianId, startMs: v.to.startMs, endMs: v.to.endMs }]
            : [],
        ),
      });
      if (r.ok) setMoved(r.data.moved);
      else setWrong(r.message);
    });

  if (moved !== null)
    return (
      <Sheet>
        <p role="status" className="font-bold">
          <State shape="done" tone="cold">
            {who.name} is away {days}. {counted(moved, 'visit')} handed on.
          </State>
        </p>
        {stuck.length + offered.length - moved > 0 ? (
          <p className="mt-1">
            {counted(stuck.length + offered.length - moved, 'visit still stands', 'visits still stand')} on those days: see below the list
            to ring.
          </p>
        ) : null}
        {stuck.length > 0 ? <Ring visits={stuck} /> : null}
        <ButtonLink href={`/week?day=${from}`} look="primary" className="mt-3">
          See the week
        </ButtonLink>
      </Sheet>
    );

  return (
    <div className="flex flex-col gap-6">
      <FormErrors errors={wrong ? [wrong] : null} />
      <Sheet
        title={
          offered.length > 0
            ? `Can go to others: ${offered.length} of ${visits.length}`
            : visits.length === 0
              ? 'Nothing stands on these days'
              : 'Nothing can go to others'
        }
      >
        {visits.length === 0 ? (
          <p className="text-soft">
            {who.name} has no open visit {days}. The days can still be put down.
          </p>
        ) : null}
        <ul>
          {offered.map((v) =>
            v.to ? (
              <li key={v.id} className="grid grid-cols-[1.75rem_minmax(0,1fr)] gap-x-3 border-b border-line py-3 last:border-0">
                <input
                  type="checkbox"
                  id={`take-${v.id}`}
                  className="mt-1 size-5"
                  checked={chosen.has(v.id)}
                  onChange={() => toggle(v.id)}
                />
                <div>
                  <label htmlFor={`take-${v.id}`} className="font-bold">
                    {kitchenInFull(v)}
                  </label>{' '}
                  {v.emergency ? (
                    <State shape="late" tone="alarm">
                      Emergency
                    </State>
                  ) : null}
                  <p>
                    <span className="text-soft">{momentSpanIn(v.startMs, v.endMs, v.timeZone)} → </span>
                    <b>{v.to.technician}</b>,{' '}
                    {v.to.changes === 'who' ? (
                      'at the same time'
                    ) : (
                      <b>
                        {v.to.changes === 'day' ? `${dayIn(v.to.startMs, v.timeZone)}, ` : ''}
                        {spanIn(v.to.startMs, v.to.endMs, v.timeZone)}
                      </b>
                    )}
                  </p>
                  <p className="text-sm">
                    {v.confirmed && v.to.changes !== 'who' ? (
                      <span className="font-bold text-alarm">It had confirmed its time. </span>
                    ) : null}
                    {v.email ? `Told by mail: ${v.email}.` : <b>No e-mail on file: ring. </b>} <Phone visit={v} />
                  </p>
                </div>
              </li>
            ) : null,
          )}
        </ul>
      </Sheet>
      {stuck.length > 0 ? (
        <Sheet title={`To ring: ${stuck.length}`}>
          <Ring visits={stuck} />
        </Sheet>
      ) : null}
      <div className="flex max-w-xl flex-col gap-3">
        <Field
          label="Why"
          name="reason"
          value={reason}
          onChange={(e) => setReason(e.target.value)}
          hint="Stays in the office; kitchens are not told."
          autoComplete="off"
          maxLength={200}
        />
        <Button look="primary" className="self-start" disabled={busy} onClick={put}>
          {busy
            ? 'Handing on …'
            : chosen.size === 0
              ? `Put ${who.name} down as away`
              : `Put ${who.name} down as away and hand on ${counted(chosen.size, 'visit')}`}
        </Button>
      </div>
    </div>
  );
}

function Phone({ visit: v }: { visit: Visit }) {
  if (!v.phone) return <span className="text-soft">No number on file.</span>;
  return (
    <>
      {v.contact ? `${v.contact}, ` : ''}
      <a href={`tel:${v.phone}`}>{v.phone}</a>
    </>
  );
}

/** Visits that nobody can take: to be moved or called off by telephone. */
function Ring({ visits }: { visits: Visit[] }) {
  return (
    <ul>
      {visits.map((v) => (
        <li key={v.id} className="border-b border-line py-2 last:border-0">
          <Link href={`/week/${v.id}`} className="font-bold">
            {kitchenInFull(v)}
          </Link>
          , {momentIn(v.startMs, v.timeZone)}
          <span className="block text-sm">{v.why ? WHY[v.why] : ''}</span>
          <span className="block text-sm">
            <Phone visit={v} />
          </span>
        </li>
      ))}
    </ul>
  );
}
