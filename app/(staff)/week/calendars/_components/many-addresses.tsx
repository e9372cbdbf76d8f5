'use client';

import { useState, useTransition } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';
import { newAddresses } from '../actions';

/** Addresses for all who have none, as lines to copy into a mail or a sheet. */
export function ManyAddresses({ whose, missing }: { whose: 'technicians' | 'kitchens'; missing: number }) {
  const [lines, setLines] = useState('');
  const [error, setError] = useState('');
  const [busy, start] = useTransition();
  if (missing === 0 && !lines) return null;
  return (
    <div className="mb-3 flex flex-col gap-2">
      {lines ? (
        <label className="text-sm">
          Shown once; copy them now
          <textarea
            readOnly
            rows={6}
            value={lines}
            className="mt-1 w-full rounded-md border border-edge bg-sunk px-2 py-1.5 font-mono text-xs"
            onFocus={(e) => e.currentTarget.select()}
          />
        </label>
      ) : (
        <Button
          className="self-start"
          disabled={busy}
          onClick={() =>
            start(async () => {
              const r = await newAddresses({ whose });
              if (r.ok) setLines(r.data.map((row) => `${row.name}\t${row.address}`).join('\n'));
              else setError(r.message);
            })
          }
        >
          {busy ? 'Making …' : `Make ${counted(missing, 'address', 'addresses')}, for all ${whose} without one`}
        </Button>
      )}
      {error ? (
        <p role="alert" className="font-bold text-alarm">
          {error}
        </p>
      ) : null}
    </div>
  );
}
