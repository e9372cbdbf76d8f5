'use client';

import { useActionState } from 'react';
import { Button } from '@/app/_ui/buttons/button';
import { propose } from '../plan/actions';
import { Hidden } from '@/app/_ui/forms/parts';

export function ProposeButton({ day }: { day: string }) {
  const [state, action, busy] = useActionState(propose, undefined);
  const error = state?.reply.error?.['']?.join(' ');
  return (
    <form action={action}>
      <Hidden of={{ day }} />
      <Button type="submit" look="primary" disabled={busy}>
        {busy ? 'Starting …' : 'Propose this week'}
      </Button>
      {error ? (
        <p role="alert" className="font-bold text-alarm">
          {error}
        </p>
      ) : null}
    </form>
  );
}
