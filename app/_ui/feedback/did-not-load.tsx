'use client';

import { Button } from '../buttons/button';
import { Notice } from './notice';

export type DidNotLoadProps = { error: Error & { digest?: string }; reset: () => void };

/** What stands in a page's place when it failed. */
export function DidNotLoad({ error, reset }: DidNotLoadProps) {
  return (
    <Notice
      title="This page did not load"
      action={
        <Button look="primary" onClick={reset}>
          Try again
        </Button>
      }
    >
      Nothing was changed. Try again; if it stays, tell the office what you were doing
      {error.digest ? ` and this reference: ${error.digest}` : ''}.
    </Notice>
  );
}
