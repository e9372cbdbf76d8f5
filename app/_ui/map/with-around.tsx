'use client';

import { lazy, Suspense, useEffect, useState } from 'react';
import { readPosition, type Position } from '@/lib/core/position';
import { askAround, NOWHERE, type Around } from './around';

// The map library comes with the first map that is opened.
const PinMap = lazy(() => import('./pin-map'));
const OverviewMap = lazy(() => import('./overview-map'));

function useAround() {
  const [around, setAround] = useState<Around | null>(null);
  useEffect(() => {
    let here = true;
    // Without what is around it a pin can be set all the same.
    askAround().then(
      (a) => here && setAround(a),
      () => here && setAround(NOWHERE),
    );
    return () => {
      here = false;
    };
  }, []);
  return around;
}

const OPENING = <p className="text-soft">The map is opening …</p>;

/** `text` is what stands in the box: a short plus code is read near the shop. */
export function PinOnMap({ at, text = '', onSet }: { at: Position | null; text?: string; onSet?: (to: Position) => void }) {
  const around = useAround();
  if (!around) return OPENING;
  const read = readPosition(text, around.shop);
  return (
    <Suspense fallback={OPENING}>
      <PinMap at={at ?? ('position' in read ? read.position : null)} around={around} onSet={onSet} />
    </Suspense>
  );
}

export function MapOfKitchens() {
  const around = useAround();
  if (!around) return OPENING;
  return (
    <Suspense fallback={OPENING}>
      <OverviewMap around={around} />
    </Suspense>
  );
}
