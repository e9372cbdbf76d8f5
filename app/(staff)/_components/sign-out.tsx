'use client';

import { signOut } from 'next-auth/react';
import { useState } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';

/** Refused while this device holds work of a round that has not reached the office. */
export function SignOut() {
  const [unsent, setUnsent] = useState(0);
  const out = async () => {
    const { unsentWork } = await import('@/lib/tablet/unsent');
    const waiting = await unsentWork();
    if (waiting > 0) return setUnsent(waiting);
    await signOut({ callbackUrl: '/sign-in' });
  };
  return (
    <>
      {unsent > 0 ? (
        <a href="/round#/entries" role="alert" className="font-bold text-alarm">
          {counted(unsent, 'entry', 'entries')} of the round still only on this device
        </a>
      ) : null}
      <Button look="quiet" onClick={() => void out()}>
        Sign out
      </Button>
    </>
  );
}
