'use client';

import { useState } from 'react';
import type { Candidate, Confidence } from '@/lib/core/position';
import { Button } from '@/app/_ui/buttons/button';
import { State } from '@/app/_ui/states/state';
import { PinOnMap } from '@/app/_ui/map/with-around';

export type FoundKitchen = {
  id: string;
  name: string;
  address: string;
  candidates: readonly Candidate[];
  confidence: Confidence;
  words: string;
};
type Props = {
  found: FoundKitchen;
  ticked: boolean;
  index: number;
  onTick: (ticked: boolean) => void;
  onChoose: (index: number) => void;
  onRefuse: () => void;
  busy: boolean;
};

const SHAPE = { fits: 'done', look: 'ask', rough: 'off' } as const;
const TONE = { fits: 'cold', look: 'soft', rough: 'alarm' } as const;
const LABEL: Record<Confidence, string> = { fits: 'Fits', look: 'Look at it', rough: 'Rough' };

/** What came back for one kitchen, how far it can be trusted, and what a person makes of it. */
export function FoundRow({ found: f, ticked, index, onTick, onChoose, onRefuse, busy }: Props) {
  const [open, setOpen] = useState(false);
  const chosen = f.candidates[index];
  return (
    <li className="flex flex-col gap-2 border-b border-line py-3">
      <div className="flex flex-wrap items-start gap-x-4 gap-y-2">
        <label className="flex min-w-60 flex-1 items-start gap-3">
          <input
            type="checkbox"
            className="mt-1 size-5 shrink-0 accent-[var(--cold)]"
            checked={ticked}
            onChange={(event) => onTick(event.target.checked)}
          />
          <span>
            <span className="font-bold">{f.name}</span>
            <span className="block text-sm text-soft">{f.address}</span>
          </span>
        </label>
        <div className="min-w-60 flex-1">
          <State shape={SHAPE[f.confidence]} tone={TONE[f.confidence]}>
            {LABEL[f.confidence]}
          </State>
          <p className="text-sm">{f.words}</p>
          {f.candidates.length > 1 ? (
            <select
              aria-label={`Place for ${f.name}`}
              value={index}
              onChange={(event) => onChoose(Number(event.target.value))}
              className="min-h-10 w-full rounded-md border border-edge bg-sheet px-2"
            >
              {f.candidates.map((c, i) => (
                <option key={`${c.lat} ${c.lng}`} value={i}>
                  {c.label}
                </option>
              ))}
            </select>
          ) : (
            <p className="text-sm text-soft">{chosen?.label}</p>
          )}
        </div>
        <div className="flex gap-2">
          <Button aria-expanded={open} onClick={() => setOpen(!open)}>
            Map<span className="sr-only"> of the place for {f.name}</span>
          </Button>
          <Button disabled={busy} onClick={onRefuse}>
            Not there<span className="sr-only">: {f.name}</span>
          </Button>
        </div>
      </div>
      {open && chosen ? <PinOnMap at={chosen} /> : null}
    </li>
  );
}
