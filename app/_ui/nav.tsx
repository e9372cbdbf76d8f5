'use client';

import Link from 'next/link';
import { usePathname } from 'next/navigation';

/** `also`: beginnings of other addresses that belong to the same room. */
export type NavItem = { href: string; label: string; also?: readonly string[] };

export function Nav({ items }: { items: NavItem[] }) {
  const path = usePathname();
  return (
    <nav aria-label="Main" className="flex flex-wrap gap-x-1 gap-y-1">
      {items.map((i) => {
        const here = [i.href, ...(i.also ?? [])].some((h) => path === h || path.startsWith(`${h}/`));
        return (
          <Link
            key={i.href}
            href={i.href}
            aria-current={here ? 'page' : undefined}
            className={`rounded-md px-3 py-2 font-bold no-underline ${here ? 'bg-cold-wash text-cold' : 'text-ink hover:bg-sunk'}`}
          >
            {i.label}
          </Link>
        );
      })}
    </nav>
  );
}
