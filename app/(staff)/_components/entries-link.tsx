'use client';

import Link from 'next/link';
import { usePathname } from 'next/navigation';
import { counted } from '@/lib/core/wording/counted';
import { State } from '@/app/_ui/states/state';

/** What waits for someone in the office to look at it; nothing where nothing does, nor on its own page, which says so itself. */
export function EntriesLink({ waiting, asked }: { waiting: number; asked: number }) {
  const path = usePathname();
  const links = [
    { href: '/jobs', words: `${counted(asked, 'request')} from customers’ pages`, many: asked },
    { href: '/entries', words: `${counted(waiting, 'entry', 'entries')} to look at`, many: waiting },
  ].filter((l) => l.many > 0 && l.href !== path);
  if (links.length === 0) return null;
  return (
    <div className="border-t border-line">
      <div className="mx-auto flex max-w-[88rem] flex-wrap gap-x-6 px-4">
        {links.map((l) => (
          <Link key={l.href} href={l.href} className="inline-flex min-h-11 items-center rounded-md no-underline hover:underline">
            <State shape="ask" tone="alarm">
              {l.words}
            </State>
          </Link>
        ))}
      </div>
    </div>
  );
}
