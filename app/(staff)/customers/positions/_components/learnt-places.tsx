'use client';

import { useState, useTransition } from 'react';
import { distanceWords, type DistanceUnit } from '@/lib/core/measures/region';
import type { Learnt } from '@/lib/core/position';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { PinOnMap } from '@/app/_ui/map/with-around';
import { Sheet } from '@/app/_ui/page/sheet';
import { acceptLearnt, refuseLearnt } from '../actions';

type Place = { id: string; name: string; address: string; found: Learnt; apartM: number | null };

/** Where tablets were on arriving, for kitchens without a position and for those that lie far from it. */
export function LearntPlaces({ places, distance }: { places: Place[]; distance: DistanceUnit }) {
  const [busy, start] = useTransition();
  const [wrong, setWrong] = useState('');
  const [open, setOpen] = useState('');
  const far = (m: number) => distanceWords(m / 1000, distance);
  const run = (call: () => Promise<{ ok: true } | { ok: false; message: string }>) =>
    start(async () => {
      const reply = await call();
      setWrong(reply.ok ? '' : reply.message);
    });
  return (
    <Sheet title="Where tablets were on arriving">
      <FormErrors errors={wrong ? [wrong] : null} />
      <ul>
        {places.map((p) => (
          <li key={p.id} className="flex flex-wrap items-start gap-x-4 gap-y-2 border-b border-line py-3">
            <div className="min-w-60 flex-1">
              <p className="font-bold">{p.name}</p>
              <p className="text-sm text-soft">{p.address}</p>
              <p className="text-sm">
                {p.found.n} arrivals: half within {far(p.found.halfWithinM)} of their middle, four in five within {far(p.found.mostWithinM)}
                . {p.apartM === null ? null : <b className="text-alarm">The position on file is {far(p.apartM)} from there.</b>}
              </p>
            </div>
            <div className="flex flex-wrap gap-2">
              <Button aria-expanded={open === p.id} onClick={() => setOpen(open === p.id ? '' : p.id)}>
                Map<span className="sr-only"> of arrivals at {p.name}</span>
              </Button>
              <Button disabled={busy} look="primary" onClick={() => run(() => acceptLearnt({ kitchenId: p.id }))}>
                {p.apartM === null ? 'Use it' : 'Move it there'}
                <span className="sr-only">: {p.name}</span>
              </Button>
              <Button disabled={busy} onClick={() => run(() => refuseLearnt({ kitchenId: p.id }))}>
                {p.apartM === null ? 'Not there' : 'It is right as it is'}
                <span className="sr-only">: {p.name}</span>
              </Button>
            </div>
            {open === p.id ? (
              <div className="basis-full">
                <PinOnMap at={p.found} />
              </div>
            ) : null}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
