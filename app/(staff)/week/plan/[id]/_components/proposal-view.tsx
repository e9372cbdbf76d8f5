'use client';

import { useEffect, useState } from 'react';
import type { Proposal } from '@/lib/core/planning/proposal';
import { Button, ButtonLink } from '../../../../../_ui/button';
import { FormErrors } from '../../../../../_ui/field';
import { Sheet } from '../../../../../_ui/sheet';
import { State } from '../../../../../_ui/state';
import { stopSearch } from '../../actions';
import { ProposalCost } from './proposal-cost';
import { ProposalVisits } from './proposal-visits';

type Run = { status: string; error: string; proposal: Proposal | null };
const LIVE = ['queued', 'running'];
const ASK_EVERY_MS = 300;

/** Follows a search until it ends, then lets the dispatcher accept all, some or none. */
export function ProposalView({ runId, monday }: { runId: string; monday: string }) {
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
        {live ? (
          <State shape="later" tone="cold">
            {p ? `Searching. Best so far after ${(p.searchMs / 1000).toFixed(1)} s` : 'Searching'}
          </State>
        ) : null}
        {live ? <Button onClick={() => void stopSearch({ runId })}>Stop</Button> : null}
        {run?.status === 'cancelled' ? (
          <State shape="off" tone="soft">
            Stopped. Nothing was booked.
          </State>
        ) : null}
        {run?.status === 'accepted' ? (
          <State shape="done" tone="soft">
            Accepted earlier.
          </State>
        ) : null}
        {run?.status === 'undone' ? (
          <State shape="off" tone="soft">
            Taken back.
          </State>
        ) : null}
      </div>
      {p && run.status !== 'cancelled' ? (
        <>
          <ProposalCost proposal={p} />
          {run.status === 'done' ? <ProposalVisits key="final" runId={runId} monday={monday} proposal={p} /> : null}
          {p.unplaced.length ? (
            <Sheet title="Could not be placed">
              <ul>
                {p.unplaced.map((u, i) => (
                  <li key={i} className="border-b border-line py-2 last:border-0">
                    <span className="font-bold">{u.kitchen}</span> · {u.what}
                    <span className="block text-soft">{u.words}</span>
                  </li>
                ))}
              </ul>
            </Sheet>
          ) : null}
        </>
      ) : null}
      {run?.status === 'cancelled' || run?.status === 'failed' ? (
        <ButtonLink href={`/week?day=${monday}`} className="self-start">
          Back to the week
        </ButtonLink>
      ) : null}
    </div>
  );
}
