'use client';

import { signOut } from 'next-auth/react';
import { useState } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';

/** Refused while this device holds work of a round that has not reached the office, or, at the first press, may hold some. */
export function SignOut() {
  // Null: what this device holds cannot be read.
  const [unsent, setUnsent] = useState<number | null>(0);
  const out = async () => {
    const { unsentWork } = await import('@/lib/tablet/unsent');
    const waiting = await unsentWork();
    // Said once; whoever presses again has read it.
    if (waiting === null ? unsent !== null : waiting > 0) return setUnsent(waiting);
    await signOut({ callbackUrl: '/sign-in' });
  };
  return (
    <>
      {unsent !== 0 ? (
        <a href="/round#/entries" role="alert" className="font-bold text-alarm">
          {unsent === null
            ? 'Whether this device holds unsent work cannot be read: open the round and look, or press again'
            : `${counted(unsent, 'entry', 'entries')} of the round still only on this device`}
        </a>
      ) : null}
      <Button look="quiet" onClick={() => void out()}>
        Sign out
      </Button>
    </>
  );
}
