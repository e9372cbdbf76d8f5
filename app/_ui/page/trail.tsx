import Link from 'next/link';

/** Where this record belongs: customer, kitchen, unit. */
export function Trail({ items }: { items: { href: string; label: string }[] }) {
  return (
    <nav aria-label="Belongs to" className="mb-2 text-sm">
      <ol className="flex flex-wrap gap-x-2">
        {items.map((i, n) => (
          <li key={i.href} className="flex gap-2">
            <Link href={i.href}>{i.label}</Link>
            {n < items.length - 1 ? (
              <span aria-hidden="true" className="text-soft">
                /
              </span>
            ) : null}
          </li>
        ))}
      </ol>
    </nav>
  );
}
