'use client';

import { DidNotLoad, type DidNotLoadProps } from './_ui/did-not-load';

export default function ErrorPage(failed: DidNotLoadProps) {
  return (
    <main className="px-5">
      <DidNotLoad {...failed} />
    </main>
  );
}
