import Link from 'next/link';

const ROOMS = [
  { href: '/owner', label: 'Today' },
  { href: '/owner/fouling', label: 'Fouling' },
  { href: '/owner/shop', label: 'The shop’s work' },
  { href: '/owner/right', label: 'Is it right?' },
] as const;

/** The owner’s questions. */
export function OwnerTabs({ at }: { at: (typeof ROOMS)[number]['href'] }) {
  return (
    <nav aria-label="Owner’s pages" className="mb-5 flex flex-wrap gap-1 no-print">
      {ROOMS.map(({ href, label }) => (
        <Link
          key={href}
          href={href}
          aria-current={href === at ? 'page' : undefined}
          className={`rounded-md border px-3 py-2 font-bold no-underline ${href === at ? 'border-cold bg-cold-wash text-cold' : 'border-line bg-sheet text-ink hover:border-edge'}`}
        >
          {label}
        </Link>
      ))}
    </nav>
  );
}
