'use client';

import { DidNotLoad, type DidNotLoadProps } from '@/app/_ui/feedback/did-not-load';

export default function ErrorPage(failed: DidNotLoadProps) {
  return (
    <main className="px-5">
      <DidNotLoad {...failed} />
    </main>
  );
}
