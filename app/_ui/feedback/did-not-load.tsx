'use client';

import { unstable_isUnrecognizedActionError as isUnknownAction } from 'next/navigation';
import { useEffect } from 'react';
import { Button } from '../buttons/button';
import { Notice } from './notice';

export type DidNotLoadProps = { error: Error & { digest?: string } };

const LOADED_AGAIN = 'rimebook-loaded-again';
const loadAgain = () => window.location.reload();

/** Whether this address was not loaded again of itself a moment ago: a page that goes on failing is shown as failed. */
function mayLoadAgain(): boolean {
  const now = Date.now();
  try {
    const [where, at] = (sessionStorage.getItem(LOADED_AGAIN) ?? '').split(' ');
    sessionStorage.setItem(LOADED_AGAIN, `${window.location.pathname} ${now}`);
    return where !== window.location.pathname || now - Number(at) > 60_000;
  } catch {
    // A browser that keeps nothing would load for ever.
    return false;
  }
}

/** What stands in a page's place when it failed. */
export function DidNotLoad({ error }: DidNotLoadProps) {
  const renewed: boolean = isUnknownAction(error);
  // A piece of the page that the server no longer has: it was replaced by a newer one while the page stood open.
  const gone = error.name === 'ChunkLoadError';
  useEffect(() => {
    if (gone && mayLoadAgain()) loadAgain();
  }, [gone]);

  return (
    <Notice
      title={renewed ? 'Rimebook was renewed while this page stood open' : 'This page did not load'}
      action={
        <Button look="primary" onClick={loadAgain}>
          {renewed ? 'Load the page' : 'Try again'}
        </Button>
      }
    >
      {renewed
        ? 'The last tap did nothing. Load the page and do it once more; what you typed in its fields is still there.'
        : `Nothing was changed. Try again; if it stays, tell the office what you were doing${
            error.digest ? ` and this reference: ${error.digest}` : ''
          }.`}
    </Notice>
  );
}
