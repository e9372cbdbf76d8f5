import Link from 'next/link';
import { Button } from '@/app/_ui/buttons/button';

/** Finds customers, kitchens and units by a piece of their name, or a unit by its tag. */
export function SearchForm({ q, archived }: { q?: string; archived: boolean }) {
  return (
    <form role="search" action="/customers" className="mb-5 flex flex-wrap items-center gap-2">
      <label htmlFor="find" className="sr-only">
        Customer, kitchen, unit or tag
      </label>
      <input
        id="find"
        name="q"
        type="search"
        defaultValue={q}
        placeholder="Customer, kitchen, unit or tag"
        className="min-h-9 w-full max-w-sm rounded-md border border-edge bg-sheet px-3 py-1.5"
      />
      {archived ? <input type="hidden" name="archived" value="1" /> : null}
      <Button type="submit">Find</Button>
      <Link href={archived ? '/customers' : '/customers?archived=1'} className="ml-auto text-sm">
        {archived ? 'Back to what is on file' : 'Out of use'}
      </Link>
    </form>
  );
}
