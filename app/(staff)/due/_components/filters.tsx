import Link from 'next/link';
import { PLACEMENT_LABEL, PLACEMENTS } from '@/lib/core/equipment/build';
import { Button } from '@/app/_ui/buttons/button';
import { addressOf } from './address';

const BOX = 'min-h-9 rounded-md border border-edge bg-sheet px-2.5 py-1.5';
type Props = { query: Record<string, string | undefined>; kinds: { value: string; label: string }[]; narrowed: boolean };

/** Narrows the list. A plain form: it works by keyboard and its answer has an address. */
export function Filters({ query, kinds, narrowed }: Props) {
  return (
    <form role="search" action="/due" className="mb-5 grid grid-cols-2 items-end gap-x-3 gap-y-2 sm:flex sm:flex-wrap">
      <input type="hidden" name="show" value={query.show ?? ''} />
      {query.kitchen ? <input type="hidden" name="kitchen" value={query.kitchen} /> : null}
      <label className="col-span-2 flex grow flex-col text-sm font-bold">
        Customer, kitchen or unit
        <input name="q" type="search" defaultValue={query.q} className={`${BOX} font-normal`} />
      </label>
      <label className="col-span-2 flex flex-col text-sm font-bold">
        Area
        <input
          name="area"
          type="search"
          defaultValue={query.area}
          placeholder="piece of the address"
          className={`${BOX} w-full font-normal sm:w-44`}
        />
      </label>
      <label className="flex flex-col text-sm font-bold">
        Task
        <select name="kind" defaultValue={query.kind ?? ''} className={`${BOX} w-full font-normal`}>
          <option value="">Any</option>
          {kinds.map((k) => (
            <option key={k.value} value={k.value}>
              {k.label}
            </option>
          ))}
        </select>
      </label>
      <label className="flex flex-col text-sm font-bold">
        Placement
        <select name="place" defaultValue={query.place ?? ''} className={`${BOX} w-full font-normal`}>
          <option value="">Any</option>
          {PLACEMENTS.map((p) => (
            <option key={p} value={p}>
              {PLACEMENT_LABEL[p]}
            </option>
          ))}
        </select>
      </label>
      <label className="flex min-h-9 items-center gap-2 text-sm">
        <input type="checkbox" name="booked" value="1" defaultChecked={query.booked === '1'} className="size-5 accent-[var(--cold)]" />
        Also booked ones
      </label>
      <Button type="submit">Show</Button>
      {narrowed ? (
        <Link href={addressOf({ show: query.show, kitchen: query.kitchen }, {})} className="min-h-9 py-1.5">
          Clear
        </Link>
      ) : null}
    </form>
  );
}
