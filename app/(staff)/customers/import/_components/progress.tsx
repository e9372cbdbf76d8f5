'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useState } from 'react';

const EVERY_MS = 500;
type Told = { status: string; rows: number; doneRows: number };

/** How far the import is, asked twice a second until it has ended. */
export function Progress({ runId, rows, doneRows }: { runId: string; rows: number; doneRows: number }) {
  const [told, setTold] = useState<Told>({ status: 'running', rows, doneRows });
  const [lost, setLost] = useState(false);
  const router = useRouter();

  useEffect(() => {
    let stopped = false;
    const timer = setInterval(async () => {
      try {
        const answer = await fetch(`/customers/import/${runId}/progress`);
        if (!answer.ok) throw new Error(String(answer.status));
        const now = (await answer.json()) as Told;
        if (stopped) return;
        setLost(false);
        setTold(now);
        if (now.status !== 'running') {
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
  }, [runId, router]);

  return (
    <div className="flex flex-col gap-2">
      <label htmlFor="import-progress" className="font-bold">
        Putting units on file
      </label>
      <progress
        id="import-progress"
        max={told.rows}
        value={told.doneRows}
        className="h-4 w-full appearance-none overflow-hidden rounded border border-edge bg-sunk [&::-moz-progress-bar]:bg-cold [&::-webkit-progress-bar]:bg-sunk [&::-webkit-progress-value]:bg-cold"
      />
      <p className="text-soft" role="status">
        {told.doneRows.toLocaleString('en-US')} of {told.rows.toLocaleString('en-US')}. You can leave this page; it goes on.
        {lost ? ' The office does not answer just now; asking again.' : ''}
      </p>
    </div>
  );
}
