'use client';

import Link from 'next/link';
import { useState, useTransition } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';
import { takeAwayBack } from '../actions';

type TakenBack = { back: number; stayed: { visitId: string; kitchen: string; words: string }[] };

/** Takes an absence back, and says which visits could not go back. */
export function HereAfterAll({ absenceId, name }: { absenceId: string; name: string }) {
  const [busy, start] = useTransition();
  const [done, setDone] = useState<TakenBack | null>(null);
  const [wrong, setWrong] = useState('');
  if (done)
    return (
      <div role="status">
        <p>{counted(done.back, 'visit is', 'visits are')} back where they stood.</p>
        <ul>
          {done.stayed.map((s) => (
            <li key={s.visitId}>
              <Link href={`/week/${s.visitId}`}>{s.kitchen}</Link> stays: {s.words}.
            </li>
          ))}
        </ul>
      </div>
    );
  return (
    <span className="flex flex-wrap items-center gap-3">
      {wrong ? (
        <span role="alert" className="font-bold text-alarm">
          {wrong}
        </span>
      ) : null}
      <Button
        disabled={busy}
        onClick={() =>
          start(async () => {
            const r = await takeAwayBack({ absenceId });
            if (r.ok) setDone(r.data);
            else setWrong(r.message);
          })
        }
      >
        {busy ? 'Taking back …' : `${name} is here after all`}
      </Button>
    </span>
  );
}
