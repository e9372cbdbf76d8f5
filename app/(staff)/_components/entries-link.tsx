'use client';

import Link from 'next/link';
import { usePathname } from 'next/navigation';
import { counted } from '@/lib/core/wording/counted';
import { State } from '@/app/_ui/state';

/** How many entries wait for someone in the office to look at them; nothing where none do, nor on their own page, which says so itself. */
export function EntriesLink({ waiting }: { waiting: number }) {
  const path = usePathname();
  if (waiting === 0 || path === '/entries') return null;
  return (
    <div className="border-t border-line">
      <div className="mx-auto max-w-[88rem] px-4">
        <Link href="/entries" className="inline-flex min-h-11 items-center rounded-md no-underline hover:underline">
          <State shape="ask" tone="alarm">
            {counted(waiting, 'entry', 'entries')} to look at
          </State>
        </Link>
      </div>
    </div>
  );
}
