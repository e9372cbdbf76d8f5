'use client';

import { useState } from 'react';
import { usePin } from '@/app/_ui/map/use-pin';
import { PinOnMap } from '@/app/_ui/map/with-around';
import { Button } from '@/app/_ui/buttons/button';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { placeKitchen } from '../actions';

/** One kitchen and the box its position is pasted into. */
export function PlaceRow({ id, name, address }: { id: string; name: string; address: string }) {
  const { form, error, busy } = useActionForm(placeKitchen);
  const { text, setText, at, setPin } = usePin('');
  const [open, setOpen] = useState(false);
  const wrong = error('text') ?? error('');
  return (
    <ActionForm
      {...form}
      className="grid grid-cols-1 items-start gap-x-4 gap-y-1 border-b border-line py-3 sm:grid-cols-[minmax(0,1fr)_16rem_auto]"
    >
      <Hidden of={{ kitchenId: id }} />
      <label htmlFor={`at-${id}`}>
        <span className="font-bold">{name}</span>
        <span className="block text-sm text-soft">{address || 'no address on file'}</span>
      </label>
      <div>
        <input
          id={`at-${id}`}
          name="text"
          value={text}
          onChange={(event) => setText(event.target.value)}
          autoComplete="off"
          placeholder="41.88, -87.63"
          aria-invalid={wrong ? true : undefined}
          aria-describedby={wrong ? `at-${id}-error` : undefined}
          className="min-h-10 w-full rounded-md border border-edge bg-sheet px-3 aria-[invalid=true]:border-2 aria-[invalid=true]:border-alarm"
        />
        {wrong ? (
          <p id={`at-${id}-error`} role="alert" className="text-sm font-bold text-alarm">
            {wrong.join(' ')}
          </p>
        ) : null}
      </div>
      <div className="flex gap-2">
        <Button aria-expanded={open} onClick={() => setOpen(!open)}>
          Map<span className="sr-only"> for {name}</span>
        </Button>
        <Button type="submit" look={text ? 'primary' : 'plain'} disabled={busy}>
          Set<span className="sr-only"> the position of {name}</span>
        </Button>
      </div>
      {open ? (
        <div className="sm:col-span-3">
          <PinOnMap at={at} text={text} onSet={setPin} />
        </div>
      ) : null}
    </ActionForm>
  );
}
