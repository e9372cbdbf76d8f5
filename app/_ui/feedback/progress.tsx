'use client';

import { whole } from '@/lib/core/measures/figures';
import { useRouter } from 'next/navigation';
import { useEffect, useId, useState } from 'react';

const EVERY_MS = 500;
type RunState = { status: string; rows: number; doneRows: number };
const ENDED = ['done', 'failed', 'undone', 'checked'];

/** How far work in the background is, asked at `address` twice a second until it has ended. */
export function Progress({ address, title, rows, doneRows }: { address: string; title: string; rows: number; doneRows: number }) {
  const [state, setTold] = useState<RunState>({ status: 'running', rows, doneRows });
  const [lost, setLost] = useState(false);
  const router = useRouter();
  const id = useId();

  useEffect(() => {
    let stopped = false;
    const timer = setInterval(async () => {
      try {
        const answer = await fetch(address);
        if (!answer.ok) throw new Error(String(answer.status));
        const now = (await answer.json()) as RunState;
        if (stopped) return;
        setLost(false);
        setTold(now);
        if (ENDED.includes(now.status)) {
          clearInterval(timer);
          router.refresh();
        }
      } catch {
        if (!stopped) setLost(true);
      }
    }, EVERY_MS);
    return () => {
      stopped = true;
      clearInterval(timer);
    };
  }, [address, router]);

  return (
    <div className="flex flex-col gap-2">
      <label htmlFor={id} className="font-bold">
        {title}
      </label>
      <progress
        id={id}
        max={Math.max(1, state.rows)}
        value={state.doneRows}
        className="h-4 w-full appearance-none overflow-hidden rounded border border-edge bg-sunk [&::-moz-progress-bar]:bg-cold [&::-webkit-progress-bar]:bg-sunk [&::-webkit-progress-value]:bg-cold"
      />
      <p className="text-soft" role="status">
        {state.rows === 0 ? 'Beginning.' : `${whole(state.doneRows)} of ${whole(state.rows)}.`} You can leave this page; it goes on.
        {lost ? ' The office does not answer just now; asking again.' : ''}
      </p>
    </div>
  );
}
