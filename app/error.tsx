'use client';

import { Button } from './_ui/button';
import { Notice } from './_ui/notice';

export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <main className="px-5">
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
    </main>
  );
}
