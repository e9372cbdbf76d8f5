'use client';

import { useEffect, useState } from 'react';
import type { LocalDate } from '@/lib/core/calendar';
import type { PlanStatus, Proposal } from '@/lib/core/planning/proposal';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { State, type Shape } from '@/app/_ui/states/state';
import { stopSearch } from '../../actions';
import { InputFindings } from './input-findings';
import { LeftOut } from './left-out';
import { ProposalCost } from './proposal-cost';
import { ProposalVisits, type StandingWeek } from './proposal-visits';

type Run = { status: PlanStatus; error: string; proposal: Proposal | null };
const LIVE: readonly PlanStatus[] = ['queued', 'running'];
const ASK_EVERY_MS = 300;

/** Due work that the search was not given: it plans the kitchens that have waited longest. */
const beyond = (p: Proposal) => ({
  tasks: p.input.some((f) => f.weight === 'stops') ? 0 : Math.max(0, p.due.tasks - p.due.searched),
  kitchens: p.due.kitchens,
});

/** Follows a search until it ends, then lets the dispatcher accept all, some or none. */
export function ProposalView({ runId, monday, week }: { runId: string; monday: LocalDate; week: StandingWeek }) {
  const [run, setRun] = useState<Run | null>(null);
  const [error, setError] = useState('');

  useEffect(() => {
    let timer: ReturnType<typeof setTimeout>;
    let gone = false;
    async function ask() {
      try {
        const response = await fetch(`/api/plans/${runId}`);
        if (!response.ok) throw new Error('not read');
        const next = (await response.json()) as Run;
        if (gone) return;
        setError('');
        setRun(next);
        if (LIVE.includes(next.status)) timer = setTimeout(ask, ASK_EVERY_MS);
      } catch {
        if (gone) return;
        setError('The office could not be reached; trying again.');
        timer = setTimeout(ask, 2000);
      }
    }
    void ask();
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [runId]);

  const live = !run || LIVE.includes(run.status);
  const p = run?.proposal;
  return (
    <div className="flex flex-col gap-6">
      <FormErrors errors={error ? [error] : run?.error ? [run.error] : null} />
      <div role="status" className="flex flex-wrap items-center gap-4">
        {live ? <Searching runId={runId} proposal={p ?? null} /> : null}
        {run ? <Ended status={run.status} /> : null}
      </div>
      {p && run.status !== 'cancelled' ? (
        <Proposed runId={runId} monday={monday} week={week} proposal={p} final={run.status === 'done'} />
      ) : null}
      {run?.status === 'cancelled' || run?.status === 'failed' ? (
        <ButtonLink href={`/week?day=${monday}`} className="self-start">
          Back to the week
        </ButtonLink>
      ) : null}
    </div>
  );
}

const ENDED: Partial<Record<PlanStatus, { shape: Shape; text: string }>> = {
  cancelled: { shape: 'off', text: 'Stopped. Nothing was booked.' },
  accepted: { shape: 'done', text: 'Accepted earlier.' },
  undone: { shape: 'off', text: 'Taken back.' },
};

function Ended({ status }: { status: PlanStatus }) {
  const ended = ENDED[status];
  return ended ? (
    <State shape={ended.shape} tone="soft">
      {ended.text}
    </State>
  ) : null;
}

function Searching({ runId, proposal: p }: { runId: string; proposal: Proposal | null }) {
  return (
    <>
      <State shape="later" tone="cold">
        {p?.visits.length ? `Searching. Best so far after ${(p.searchMs / 1000).toFixed(1)} s` : 'Searching'}
      </State>
      <Button onClick={() => void stopSearch({ runId })}>Stop</Button>
    </>
  );
}

type ProposedProps = { runId: string; monday: LocalDate; week: StandingWeek; proposal: Proposal; final: boolean };

/** What was found so far; only a search that has ended can be accepted. */
function Proposed({ runId, monday, week, proposal: p, final }: ProposedProps) {
  return (
    <>
      <InputFindings findings={p.input} monday={monday} keepsShop={week.keepsShop} />
      {p.visits.length > 0 ? <ProposalCost proposal={p} /> : null}
      {final ? <ProposalVisits key="final" runId={runId} monday={monday} proposal={p} week={week} /> : null}
      {final ? <LeftOut left={p.unplaced} beyond={beyond(p)} /> : null}
    </>
  );
}
