'use client';

import { useState, useTransition } from 'react';
import { judge, type Candidate, type Position } from '@/lib/core/position';
import { Button } from '../buttons/button';
import type { LookUp } from '../fields/position-field';

type Said = { address: string; candidates: readonly Candidate[]; problem: string };

/** Asks where the address of the form around it is; a person takes one of what comes back, or none. */
export function LookUpAddress({ find, onTake }: { find: LookUp; onTake: (to: Position) => void }) {
  const [said, setSaid] = useState<Said | null>(null);
  const [busy, start] = useTransition();
  const ask = (form: HTMLFormElement | null) =>
    start(async () => {
      const typed = form ? new FormData(form).get('address') : null;
      const address = typeof typed === 'string' ? typed.trim() : '';
      const answer = await find(address);
      setSaid({ address, candidates: answer.ok ? answer.data : [], problem: answer.ok ? '' : answer.message });
    });
  return (
    <>
      <Button disabled={busy} onClick={(event) => ask(event.currentTarget.form)}>
        {busy ? 'Asking …' : 'Look up the address'}
      </Button>
      <div role="status" className="basis-full">
        {said ? <Answer said={said} onTake={onTake} /> : null}
      </div>
    </>
  );
}

function Answer({ said, onTake }: { said: Said; onTake: (to: Position) => void }) {
  if (said.problem) return <p className="font-bold text-alarm">{said.problem}</p>;
  if (said.candidates.length === 0) return <p>Nothing was found for “{said.address}”. Paste a position, or set a pin.</p>;
  return (
    <>
      <p>{judge(said.address, said.candidates).words}</p>
      <ul className="mt-2 flex flex-col gap-2">
        {said.candidates.map((c) => (
          <li key={`${c.lat} ${c.lng}`} className="flex flex-wrap items-center gap-3">
            <Button onClick={() => onTake(c)}>
              Take<span className="sr-only"> {c.label}</span>
            </Button>
            <span className="flex-1">{c.label}</span>
          </li>
        ))}
      </ul>
    </>
  );
}
