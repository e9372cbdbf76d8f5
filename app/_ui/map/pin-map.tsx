'use client';

import { useEffect, useRef, useState } from 'react';
import type { Map as LeafletMap, Marker } from 'leaflet';
import type { Position } from '@/lib/core/position';
import { Button } from '../buttons/button';
import type { Around } from './around';
import { fromHere } from './from-here';
import { drawMap, drawPin } from './leaflet-map';
import { Whose } from './whose';

/** A map on which one pin is seen, and set where `onSet` is given: by a click or a tap, by dragging it, with the arrow keys, or in the middle by a button. */
export default function PinMap({ at, around, onSet }: { at: Position | null; around: Around; onSet?: (to: Position) => void }) {
  const box = useRef<HTMLDivElement>(null);
  const [drawn, setDrawn] = useState<LeafletMap | null>(null);
  const pin = useRef<Marker | null>(null);
  const set = useRef(onSet);
  useEffect(() => {
    set.current = onSet;
  });

  // Where it first looks; later the pin moves, and the map stays where the person has put it.
  const first = useRef(at);
  useEffect(() => {
    if (!box.current) return;
    const map = drawMap(box.current, around, first.current);
    map.on('click', (event) => {
      const { lat, lng } = event.latlng.wrap();
      set.current?.({ lat, lng });
    });
    setDrawn(map);
    return () => {
      pin.current = null;
      map.remove();
    };
  }, [around]);

  useEffect(() => {
    if (!drawn) return;
    if (!at) {
      pin.current?.remove();
      pin.current = null;
      return;
    }
    if (pin.current) pin.current.setLatLng(at);
    else pin.current = drawPin(drawn, at, set.current ? (to) => set.current?.(to) : null);
    if (!drawn.getBounds().contains(at)) drawn.panTo(at);
  }, [drawn, at]);

  const middle = () => {
    if (!drawn) return;
    const { lat, lng } = drawn.getCenter().wrap();
    onSet?.({ lat, lng });
  };
  return (
    <div className="flex flex-col gap-2">
      <div ref={box} role="region" aria-label="Map, north up" className="isolate h-80 w-full rounded-md border border-edge" />
      <Whose tiles={around.tiles} />
      {onSet ? (
        <div className="flex flex-wrap items-center gap-x-4 gap-y-2">
          <Button onClick={middle}>Put the pin in the middle</Button>
          <p className="text-sm text-soft">Click or tap the place, drag the pin, or move it with the arrow keys.</p>
        </div>
      ) : null}
      <p aria-live="polite" className="text-sm">
        {at ? fromHere(at, around) : 'No pin yet.'}
      </p>
    </div>
  );
}
