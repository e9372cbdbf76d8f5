'use client';

import { useEffect, useRef } from 'react';
import type { Around } from './around';
import { drawMap } from './leaflet-map';
import { Whose } from './whose';

/** Every kitchen with a position, to be looked over. */
export default function OverviewMap({ around }: { around: Around }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!box.current) return;
    const map = drawMap(box.current, around, null);
    return () => void map.remove();
  }, [around]);
  return (
    <div className="flex flex-col gap-2">
      <div
        ref={box}
        role="region"
        aria-label={`Map of ${around.kitchens.length} kitchens, north up`}
        className="isolate h-96 w-full rounded-md border border-edge"
      />
      <Whose tiles={around.tiles} />
    </div>
  );
}
