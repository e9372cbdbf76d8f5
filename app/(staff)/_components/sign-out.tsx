'use client';

import { signOut } from 'next-auth/react';
import { Button } from '../../_ui/button';

export function SignOut() {
  return (
    <Button look="quiet" onClick={() => void signOut({ callbackUrl: '/sign-in' })}>
      Sign out
    </Button>
  );
}
