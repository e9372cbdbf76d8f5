'use client';

import { useState, useTransition } from 'react';
import { Button } from '@/app/_ui/buttons/button';
import { State } from '@/app/_ui/states/state';
import { endAddress, newAddress } from '../actions';

type Of = { userId: string } | { kitchenId: string };

export function FeedRow({ name, of, live }: { name: string; of: Of; live: boolean }) {
  const [address, setAddress] = useState('');
  const [error, setError] = useState('');
  const [busy, start] = useTransition();

  const make = () =>
    start(async () => {
      const r = await newAddress(of);
      if (r.ok) setAddress(r.data);
      else setError(r.message);
    });
  const end = () =>
    start(async () => {
      const r = await endAddress(of);
      setAddress('');
      if (!r.ok) setError(r.message);
    });

  return (
    <li className="flex flex-wrap items-center gap-x-3 gap-y-2 border-b border-line py-2 last:border-0">
      <span className="font-bold">{name}</span>
      {live ? (
        <State shape="done" tone="soft">
          Live
        </State>
      ) : (
        <span className="text-soft">No address</span>
      )}
      <span className="ml-auto flex gap-2">
        <Button onClick={make} disabled={busy}>
          {live ? 'New address' : 'Make an address'}
          <span className="sr-only"> for {name}</span>
        </Button>
        {live ? (
          <Button look="danger" onClick={end} disabled={busy}>
            End<span className="sr-only"> the address of {name}</span>
          </Button>
        ) : null}
      </span>
      {address ? (
        <label className="w-full text-sm">
          Shown once; copy it now
          <input
            readOnly
            value={address}
            className="mt-1 w-full rounded-md border border-edge bg-sunk px-2 py-1.5"
            onFocus={(e) => e.currentTarget.select()}
          />
        </label>
      ) : null}
      {error ? (
        <p role="alert" className="w-full font-bold text-alarm">
          {error}
        </p>
      ) : null}
    </li>
  );
}
