import Link from 'next/link';

/** In the place of people, before anybody is on file who goes to kitchens. */
export function NobodyGoes({ mayAdd }: { mayAdd: boolean }) {
  return (
    <p className="text-soft">
      No technician is on file yet.{' '}
      {mayAdd ? <Link href="/people/new">Put a technician on file</Link> : 'The owner adds people under People'}.
    </p>
  );
}
