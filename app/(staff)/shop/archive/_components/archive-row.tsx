import type { ReactNode } from 'react';
import { whole } from '@/lib/core/measures/figures';
import { FileLink } from '@/app/_ui/buttons/button';
import { Progress } from '@/app/_ui/feedback/progress';
import { State } from '@/app/_ui/states/state';
import { momentIn } from '@/lib/core/calendar/when';

type Archive = {
  id: string; status: 'queued' | 'running' | 'done' | 'failed'; createdAt: Date; expiresAt: Date | null; rows: number; doneRows: number; bytes: number; error: string; gone: boolean;
}; // prettier-ignore

const size = (bytes: number) => (bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`);

/** One archive: how far it is, or until when it can be fetched, and below that who asked for it and fetched it. */
export function ArchiveRow({ archive: a, timeZone, children }: { archive: Archive; timeZone: string; children: ReactNode }) {
  const when = (at: Date) => momentIn(at, timeZone);
  if (a.status === 'queued' || a.status === 'running')
    return (
      <li className="border-b border-line py-4 last:border-0">
        <Progress
          address={`/shop/archive/${a.id}/progress`}
          title={`Archive of ${when(a.createdAt)}`}
          rows={a.rows}
          doneRows={a.doneRows}
        />
        {children}
      </li>
    );
  return (
    <li className="flex flex-wrap items-center justify-between gap-3 border-b border-line py-4 last:border-0">
      <div>
        <div className="font-bold">As of {when(a.createdAt)}</div>
        {a.status === 'failed' ? (
          <State shape="off" tone="alarm">
            not made
          </State>
        ) : null}
        <p className="text-sm text-soft">
          {a.status === 'failed'
            ? a.error
            : a.gone
              ? 'It did not outlive a stop of the database. Make a new one.'
              : `${size(a.bytes)}, ${whole(a.rows)} rows and pictures. Here until ${a.expiresAt ? when(a.expiresAt) : ''}.`}
        </p>
        {children}
      </div>
      {a.status === 'done' && !a.gone ? (
        <FileLink href={`/shop/archive/${a.id}/file`} download>
          Fetch it
        </FileLink>
      ) : null}
    </li>
  );
}
