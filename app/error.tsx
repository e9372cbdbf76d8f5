'use client';

import { Button } from './_ui/button';

export default function ErrorPage({ reset }: { error: Error; reset: () => void }) {
  return (
    <main className="mx-auto max-w-xl px-5 py-16">
      <h1>This page did not load</h1>
      <p className="my-4 text-soft">Nothing was changed. Try again; if it stays, tell the office what you were doing.</p>
      <Button look="primary" onClick={reset}>Try again</Button>
    </main>
  );
}
