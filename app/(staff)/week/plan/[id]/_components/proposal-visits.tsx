'use client';

import { useRouter } from 'next/navigation';
import { useState, useTransition } from 'react';
import { instantOf, type LocalDate } from '@/lib/core/calendar';
import type { Proposal, ProposedVisit } from '@/lib/core/planning/proposal';
import { dayMinutes, hoursShown } from '@/lib/core/visits/time-grid';
import { counted } from '@/lib/core/wording/counted';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { dayIn, timeIn } from '@/lib/core/calendar/when';
import type { GridVisit } from '../../../_components/grid-item';
import { TimeGrid, type GridRow } from '../../../_components/time-grid';
import { accept, stopSearch, undo } from '../../actions';
import { WhatFor } from './visit-reason';

export type StandingWeek = {
  days: LocalDate[];
  today: LocalDate;
  timeZone: string;
  currency: string;
  rows: GridRow[];
  standing: GridVisit[];
};
type Props = { runId: string; monday: string; proposal: Proposal; week: StandingWeek };
type Outcome = { booked: { key: string; visitId: string }[]; refused: { key: string; words: string }[] };
/** What was changed before accepting. */
type Change = { technicianId?: string; startMs?: number; fixed?: boolean };

/** What is proposed, drawn in the week that stands; each visit can be left out, moved, given to another, or fixed before it is accepted. */
export function ProposalVisits({ runId, monday, proposal, week }: Props) {
  const [chosen, setChosen] = useState(() => new Set(proposal.visits.map((v) => v.key)));
  const [changes, setChanges] = useState<Record<string, Change>>({});
  const [outcome, setOutcome] = useState<Outcome | null>(null);
  const [undone, setUndone] = useState<number | null>(null);
  const [error, setError] = useState('');
  const [busy, start] = useTransition();

  const router = useRouter();
  const call = <T,>(work: () => Promise<{ ok: true; data: T } | { ok: false; message: string }>, then: (data: T) => void) =>
    start(async () => {
      const r = await work();
      if (r.ok) then(r.data);
      else setError(r.message);
    });
  const toggle = (key: string) => {
    const next = new Set(chosen);
    if (!next.delete(key)) next.add(key);
    setChosen(next);
  };
  const change = (key: string, by: Change) => setChanges({ ...changes, [key]: { ...changes[key], ...by } });
  const said = (key: string) => outcome?.refused.find((r) => r.key === key)?.words;

  if (proposal.visits.length === 0)
    return proposal.input.some((f) => f.weight === 'stops') ? null : (
      <p>No new visit: none of what is due found a place. The reasons are below.</p>
    );

  const asChanged = (v: ProposedVisit) => {
    const { technicianId = v.technicianId, startMs = v.startMs, fixed = false } = changes[v.key] ?? {};
    return {
      ...v,
      wasMs: v.startMs,
      technicianId,
      startMs,
      endMs: startMs + v.endMs - v.startMs,
      fixed,
      changed: technicianId !== v.technicianId || startMs !== v.startMs,
    };
  };
  const rows = proposal.visits.map(asChanged).sort((a, b) => a.startMs - b.startMs);
  const anchor = (key: string) => `v-${key.replace(/\W/g, '-')}`;
  const items: GridVisit[] = rows.map((v) => ({
    key: v.key,
    technicianId: v.technicianId,
    ...dayMinutes(v.startMs, v.endMs, week.timeZone),
    // Of a visit put elsewhere the drive is not known.
    driveMinutes: v.changed || !chosen.has(v.key) ? null : v.driveMinutes,
    href: `#${anchor(v.key)}`,
    time: `${timeIn(v.startMs, v.timeZone)}–${timeIn(v.endMs, v.timeZone)}`,
    customer: v.customer,
    kitchen: v.kitchen,
    work: counted(v.taskIds.length, 'task'),
    marks: [
      chosen.has(v.key) ? { shape: 'later', tone: 'cold', words: 'Proposed' } : { shape: 'off', tone: 'soft', words: 'Left out' },
      ...(v.fixed ? [{ shape: 'held', tone: 'soft', words: 'Fixed' } as const] : []),
    ],
    look: chosen.has(v.key) ? 'proposed' : 'left',
    movable: !outcome,
  }));
  const drawn = outcome ? week.standing : [...week.standing.map((v) => ({ ...v, movable: false })), ...items];
  const days = week.days.filter((d, i) => i < 5 || drawn.some((v) => v.date === d));
  return (
    <>
      {outcome ? null : (
        <TimeGrid
          label="The week with what is proposed"
          days={days}
          today={week.today}
          rows={week.rows}
          items={drawn}
          hours={hoursShown([...drawn, ...week.rows.flatMap((r) => r.days.flatMap((d) => d.shifts))])}
          onPut={(t) => change(t.key, { technicianId: t.technicianId, startMs: instantOf(t.date, t.from, week.timeZone) })}
        />
      )}
      <Sheet
        title="Proposed visits"
        aside={
          <span className="text-soft">
            {chosen.size} of {rows.length} chosen
          </span>
        }
      >
        <FormErrors errors={error ? [error] : null} />
        <ul>
          {rows.map((v) => (
            <li
              key={v.key}
              id={anchor(v.key)}
              className="grid scroll-mt-4 grid-cols-[1.75rem_minmax(0,1fr)] gap-x-3 gap-y-2 border-b border-line py-3 last:border-0 target:bg-cold-wash lg:grid-cols-[1.75rem_minmax(0,17rem)_minmax(0,1fr)_auto]"
            >
              <input
                type="checkbox"
                className="mt-1 size-5"
                id={`take-${anchor(v.key)}`}
                checked={chosen.has(v.key)}
                disabled={!!outcome}
                onChange={() => toggle(v.key)}
              />
              <div>
                <label htmlFor={`take-${anchor(v.key)}`} className="font-bold">
                  {v.customer}
                  {v.kitchen === v.customer ? '' : `, ${v.kitchen}`}
                </label>
                <span className="block">
                  {dayIn(v.startMs, v.timeZone)}, {timeIn(v.startMs, v.timeZone)}–{timeIn(v.endMs, v.timeZone)}
                </span>
                <span className="block text-sm text-soft">
                  {counted(v.units, 'unit')}, {counted(v.taskIds.length, 'task')}, {Math.round(v.driveMinutes)} min drive there
                </span>
                {said(v.key) ? <span className="block font-bold text-alarm">{said(v.key)}</span> : null}
              </div>
              <div className="max-lg:col-start-2">
                <WhatFor reason={v.reason} currency={week.currency} />
                {v.changed ? (
                  <span className="block text-sm font-bold">
                    Changed by hand: it was {dayIn(v.wasMs, v.timeZone)}, {timeIn(v.wasMs, v.timeZone)}, {v.technician}. The drive is not
                    worked out anew.
                  </span>
                ) : null}
              </div>
              {outcome ? null : (
                <div className="flex flex-wrap items-start gap-x-4 gap-y-1 max-lg:col-start-2">
                  <label className="flex items-center gap-2 text-sm">
                    <span>Who</span>
                    <select
                      className="min-h-9 rounded-md border border-edge bg-sheet px-2"
                      value={v.technicianId}
                      onChange={(e) => change(v.key, { technicianId: e.target.value })}
                    >
                      {week.rows
                        .filter((r) => r.works)
                        .map((r) => (
                          <option key={r.id} value={r.id}>
                            {r.name}
                          </option>
                        ))}
                    </select>
                    <span className="sr-only">goes to {v.kitchen}</span>
                  </label>
                  <label className="flex min-h-9 items-center gap-2 text-sm">
                    <input
                      type="checkbox"
                      className="size-4"
                      checked={v.fixed}
                      onChange={(e) => change(v.key, { fixed: e.target.checked })}
                    />
                    Fix it<span className="sr-only"> at {v.kitchen}</span>
                  </label>
                  {changes[v.key] ? (
                    <Button
                      look="quiet"
                      onClick={() => setChanges(Object.fromEntries(Object.entries(changes).filter(([k]) => k !== v.key)))}
                    >
                      As proposed<span className="sr-only"> at {v.kitchen}</span>
                    </Button>
                  ) : null}
                </div>
              )}
            </li>
          ))}
        </ul>
        <div className="sticky bottom-0 mt-4 flex flex-wrap items-center gap-3 border-t border-line bg-sheet py-3">
          {outcome ? (
            <>
              <State shape="done" tone="cold">
                {undone === null
                  ? `${outcome.booked.length} booked${outcome.refused.length ? `, ${outcome.refused.length} refused` : ''}`
                  : `${undone} taken back`}
              </State>
              {undone === null && outcome.booked.length ? (
                <Button disabled={busy} onClick={() => call(() => undo({ runId }), setUndone)}>
                  Take back
                </Button>
              ) : null}
              {/* The first day's list goes with the first booking, so the frame around the page is asked for anew. */}
              <ButtonLink href={`/week?day=${monday}`} look="primary" onClick={() => router.refresh()}>
                See the week
              </ButtonLink>
            </>
          ) : (
            <>
              <Button
                look="primary"
                disabled={busy || chosen.size === 0}
                onClick={() =>
                  call(
                    () => accept({ runId, visits: rows.filter((v) => chosen.has(v.key)).map((v) => ({ key: v.key, ...changes[v.key] })) }),
                    setOutcome,
                  )
                }
              >
                {busy ? 'Booking …' : chosen.size === rows.length ? 'Accept all' : `Accept ${chosen.size}`}
              </Button>
              <Button disabled={busy} onClick={() => setChosen(new Set(chosen.size ? [] : rows.map((v) => v.key)))}>
                {chosen.size ? 'Choose none' : 'Choose all'}
              </Button>
              <Button
                look="quiet"
                disabled={busy}
                onClick={() =>
                  call(
                    () => stopSearch({ runId }),
                    () => window.location.reload(),
                  )
                }
              >
                Drop the proposal
              </Button>
            </>
          )}
        </div>
      </Sheet>
    </>
  );
}
