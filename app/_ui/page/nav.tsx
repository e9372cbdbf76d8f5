'use client';

import Link from 'next/link';
import { usePathname } from 'next/navigation';
import { useEffect, useRef } from 'react';

/** `also`: beginnings of other addresses that belong to the same room. */
export type NavItem = { href: string; label: string; also?: readonly string[] };

/** The rooms in one row. Where they do not fit, the row scrolls sideways by itself and starts at the room one is in. */
export function Nav({ items, className = '' }: { items: NavItem[]; className?: string }) {
  const path = usePathname();
  const row = useRef<HTMLElement>(null);
  useEffect(() => {
    const here = row.current?.querySelector<HTMLElement>('[aria-current]');
    if (row.current && here) row.current.scrollLeft = here.offsetLeft - (row.current.clientWidth - here.offsetWidth) / 2;
  }, [path]);
  return (
    <nav ref={row} aria-label="Main" className={`relative flex gap-x-1 overflow-x-auto py-1.5 [scrollbar-width:none] ${className}`}>
      {items.map((i) => {
        const here = [i.href, ...(i.also ?? [])].some((h) => path === h || path.startsWith(`${h}/`));
        return (
          <Link
            key={i.href}
            href={i.href}
            aria-current={here ? 'page' : undefined}
            className={`inline-flex min-h-10 shrink-0 items-center rounded-md px-3 md:px-2 2xl:px-3 font-bold no-underline ${here ? 'bg-cold-wash text-cold' : 'text-ink hover:bg-sunk'}`}
          >
            {i.label}
          </Link>
        );
      })}
    </nav>
  );
}
