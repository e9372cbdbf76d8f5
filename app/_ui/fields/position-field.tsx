'use client';

import { useState } from 'react';
import { writePosition, type Candidate } from '@/lib/core/position';
import { Button } from '../buttons/button';
import { Field } from './field';
import { usePin } from '../map/use-pin';
import { LookUpAddress } from '../map/look-up-address';
import { PinOnMap } from '../map/with-around';

export type LookUp = (address: string) => Promise<{ ok: true; data: readonly Candidate[] } | { ok: false; message: string }>;
type Props = {
  name: string;
  position: { lat: number | null; lng: number | null };
  error?: string[];
  label?: string;
  hint?: string;
  lookUp?: LookUp;
};

/** One box for a position, as it is copied from a map or a phone, and a map of our own to set it on. */
export function PositionField({ name, position, error, label = 'Position', hint = '', lookUp }: Props) {
  const { text, setText, at, setPin } = usePin(writePosition(position));
  const [open, setOpen] = useState(false);
  return (
    <div className="col-span-full flex flex-col gap-2">
      <Field
        label={label}
        name={name}
        value={text}
        onChange={(event) => setText(event.target.value)}
        error={error}
        autoComplete="off"
        hint={`Paste it from a map: 41.88, -87.63 or a plus code. ${hint}`}
      />
      <div className="flex flex-wrap gap-2">
        <Button aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Close the map' : 'Set it on a map'}
        </Button>
        {lookUp ? <LookUpAddress find={lookUp} onTake={setPin} /> : null}
      </div>
      {open ? <PinOnMap at={at} text={text} onSet={setPin} /> : null}
    </div>
  );
}
