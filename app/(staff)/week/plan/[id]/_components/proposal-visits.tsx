'use client';

import { useState, useTransition } from 'react';
import type { Proposal } from '@/lib/core/planning/proposal';
import { Button, ButtonLink } from '../../../../../_ui/button';
import { FormErrors } from '../../../../../_ui/field';
import { Sheet } from '../../../../../_ui/sheet';
import { State } from '../../../../../_ui/state';
import { Table, Td, Th } from '../../../../../_ui/table';
import { dayIn, timeIn } from '@/lib/core/calendar/when';
import { accept, stopSearch, undo } from '../../actions';

type Props = { runId: string; monday: string; proposal: Proposal };
type Outcome = { booked: { key: string; visitId: string }[]; refused: { key: string; words: string }[] };

export function ProposalVisits({ runId, monday, proposal }: Props) {
  const [chosen, setChosen] = useState(() => new Set(proposal.visits.map((v) => v.key)));
  const [outcome, setOutcome] = useState<Outcome | null>(null);
  const [undone, setUndone] = useState<number | null>(null);
  const [error, setError] = useState('');
  const [busy, start] = useTransition();

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
  const said = (key: string) => outcome?.refused.find((r) => r.key === key)?.words;

  if (proposal.visits.length === 0)
    return proposal.input.some((f) => f.weight === 'stops') ? null : (
      <p>No new visit: none of what is due found a place. The reasons are below.</p>
    );
  const rows = [...proposal.visits].sort((a, b) => a.startMs - b.startMs);
  return (
    <Sheet
      title="Proposed visits"
      aside={
        <span className="text-soft">
          {chosen.size} of {rows.length} chosen
        </span>
      }
    >
      <FormErrors errors={error ? [error] : null} />
      <Table label="Proposed visits">
        <thead>
          <tr>
            <Th>
              <span className="sr-only">Accept</span>
            </Th>
            <Th>When</Th>
            <Th>Who</Th>
            <Th>Kitchen</Th>
            <Th className="text-right">Units</Th>
            <Th className="text-right">Tasks</Th>
            <Th className="text-right">Drive there</Th>
          </tr>
        </thead>
        <tbody>
          {rows.map((v) => (
            <tr key={v.key}>
              <Td>
                <input
                  type="checkbox"
                  className="size-5"
                  aria-label={`Accept ${v.kitchen}, ${dayIn(v.startMs, v.timeZone)}`}
                  checked={chosen.has(v.key)}
                  disabled={!!outcome}
                  onChange={() => toggle(v.key)}
                />
              </Td>
              <Td className="whitespace-nowrap">
                {dayIn(v.startMs, v.timeZone)}, {timeIn(v.startMs, v.timeZone)}–{timeIn(v.endMs, v.timeZone)}
              </Td>
              <Td>{v.technician}</Td>
              <Td>
                <span className="font-bold">{v.customer}</span>
                {v.kitchen === v.customer ? '' : `, ${v.kitchen}`}
                {said(v.key) ? <span className="block font-bold text-alarm">{said(v.key)}</span> : null}
              </Td>
              <Td className="text-right">{v.units}</Td>
              <Td className="text-right">
                {v.taskIds.length}
                {v.overdue ? <span className="text-alarm"> ({v.overdue} overdue)</span> : null}
              </Td>
              <Td className="whitespace-nowrap text-right">{Math.round(v.driveMinutes)} min</Td>
            </tr>
          ))}
        </tbody>
      </Table>
      <div className="mt-4 flex flex-wrap items-center gap-3">
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
            <ButtonLink href={`/week?day=${monday}`} look="primary">
              See the week
            </ButtonLink>
          </>
        ) : (
          <>
            <Button
              look="primary"
              disabled={busy || chosen.size === 0}
              onClick={() => call(() => accept({ runId, keys: [...chosen] }), setOutcome)}
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
  );
}
