'use client';

import { useRouter } from 'next/navigation';
import { useMemo, useState, useTransition } from 'react';
import { instantOf, type LocalDate } from '@/lib/core/calendar';
import type { Proposal, ProposedVisit } from '@/lib/core/planning/proposal';
import { dayMinutes, hoursShown } from '@/lib/core/visits/time-grid';
import { counted } from '@/lib/core/wording/counted';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { spanIn } from '@/lib/core/calendar/when';
import type { GridVisit } from '../../../_components/grid-item';
import { drawnWeek, type SentWeek } from '../../../_components/sent-week';
import { TimeGrid, type GridRow } from '../../../_components/time-grid';
import { accept, stopSearch, undo } from '../../actions';
import { ProposalDays } from './proposal-days';
import { anchorOf, ProposalRow, type Change, type RowVisit } from './proposal-row';

export type StandingWeek = {
  days: LocalDate[];
  today: LocalDate;
  timeZone: string;
  currency: string;
  rows: GridRow[];
  standing: SentWeek;
  /** Whether whoever looks may change people, shop and costs. */
  keepsShop: boolean;
};
type Props = { runId: string; monday: string; proposal: Proposal; week: StandingWeek };
type Outcome = { booked: { key: string; visitId: string }[]; refused: { key: string; message: string }[] };

/** What is proposed, drawn in the week that stands; each visit can be left out, moved, given to another, or fixed before it is accepted. */
export function ProposalVisits({ runId, monday, proposal, week }: Props) {
  const [chosen, setChosen] = useState(() => new Set(proposal.visits.map((v) => v.key)));
  const [changes, setChanges] = useState<Record<string, Change>>({});
  const [outcome, setOutcome] = useState<Outcome | null>(null);
  const [undone, setUndone] = useState<number | null>(null);
  const [error, setError] = useState('');
  const [busy, start] = useTransition();
  const standing = useMemo(() => drawnWeek(week.standing), [week.standing]);

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
  const said = (key: string) => outcome?.refused.find((r) => r.key === key)?.message;

  if (proposal.visits.length === 0)
    return proposal.input.some((f) => f.weight === 'stops') ? null : (
      <p>No new visit: none of what is due found a place. The reasons are below.</p>
    );

  const asChanged = (v: ProposedVisit): RowVisit => {
    const { technicianId = v.technicianId, startMs = v.startMs, fixed = false } = changes[v.key] ?? {};
    return {
      ...v,
      wasMs: v.startMs,
      technicianId,
      startMs,
      endMs: startMs + v.endMs - v.startMs,
      fixed,
      changed: technicianId !== v.technicianId || startMs !== v.startMs,
      altered: v.key in changes,
    };
  };
  const rows = proposal.visits.map(asChanged).sort((a, b) => a.startMs - b.startMs);
  const items: GridVisit[] = rows.map((v) => ({
    key: v.key,
    technicianId: v.technicianId,
    ...dayMinutes(v.startMs, v.endMs, week.timeZone),
    // Of a visit put elsewhere the drive is not known.
    driveMinutes: v.changed || !chosen.has(v.key) ? null : v.driveMinutes,
    href: `#${anchorOf(v.key)}`,
    time: spanIn(v.startMs, v.endMs, v.timeZone),
    customer: v.customer,
    kitchen: v.kitchen,
    work: counted(v.taskIds.length, 'task'),
    marks: [
      chosen.has(v.key) ? { shape: 'later', tone: 'cold', label: 'Proposed' } : { shape: 'off', tone: 'soft', label: 'Left out' },
      ...(v.fixed ? [{ shape: 'held', tone: 'soft', label: 'Fixed' } as const] : []),
    ],
    look: chosen.has(v.key) ? 'proposed' : 'left',
    movable: !outcome,
  }));
  const drawn = outcome ? standing : [...standing.map((v) => ({ ...v, movable: false })), ...items];
  // Days gone by hold nothing to decide.
  const days = week.days.filter((d, i) => (i < 5 && d >= week.today) || drawn.some((v) => v.date === d));
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
        <ProposalDays
          rows={rows}
          chosen={chosen}
          nameOf={(id) => week.rows.find((r) => r.id === id)?.name ?? ''}
          row={(v) => (
            <ProposalRow
              key={v.key}
              visit={v}
              taken={chosen.has(v.key)}
              refused={said(v.key)}
              open={!outcome}
              currency={week.currency}
              people={week.rows.filter((r) => r.works)}
              onTake={() => toggle(v.key)}
              onChange={(by) => change(v.key, by)}
              onAsProposed={() => setChanges(Object.fromEntries(Object.entries(changes).filter(([k]) => k !== v.key)))}
            />
          )}
        />
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
