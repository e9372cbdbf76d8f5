import { fullKitchenName } from '@/lib/core/wording/kitchen-name';
import type { Metadata } from 'next';
import Link from 'next/link';
import { isId } from '@/lib/core/ids/is-id';
import type { NearKitchen } from '@/lib/features/find/reads/nearest';
import { kitchensSaid, type FoundKitchen } from '@/lib/features/jobs/reads/find-kitchens';
import { kitchenDesk } from '@/lib/features/jobs/reads/kitchen-desk';
import { definePage } from '@/lib/server/doors/define-page';
import { Button } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { CallForm } from './_components/call-form';
import { Desk } from './_components/desk';

export const metadata: Metadata = { title: 'Take a call' };

export default definePage('write:job', async ({ db, now, query }) => {
  const q = query.q?.trim().slice(0, 120) ?? '';
  const { found, near, only } = await kitchensSaid(db, q);
  const kitchenId = isId(query.kitchen) ? query.kitchen : only;
  const desk = kitchenId ? await kitchenDesk(db, kitchenId, now) : null;
  return (
    <>
      <Trail items={[{ href: '/jobs', label: 'Jobs' }]} />
      <PageHead title="Take a call" lead={desk ? undefined : 'Find the kitchen by anything the caller says.'} />
      <form role="search" action="/jobs/call" className="mb-5 flex flex-wrap items-center gap-2">
        <label htmlFor="find-kitchen" className="sr-only">
          Name, street, phone, unit or tag
        </label>
        <input
          id="find-kitchen"
          name="q"
          type="search"
          defaultValue={q}
          autoFocus={!desk}
          placeholder="Name, street, phone, unit or tag"
          className="min-h-10 w-full max-w-md rounded-md border border-edge bg-sheet px-3 py-1.5"
        />
        <Button type="submit" look={desk ? 'plain' : 'primary'}>
          Find
        </Button>
      </form>
      {q && !desk ? <Found kitchens={found} near={near} /> : null}
      {desk ? (
        <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,1fr)_26rem]">
          <Desk desk={desk} />
          <CallForm
            kitchenId={desk.kitchen.id}
            units={desk.kitchen.units.map((u) => ({ id: u.id, name: u.name, tag: u.tag }))}
            caller={{
              name: desk.kitchen.contactName || desk.kitchen.customer.contactName,
              phone: desk.kitchen.contactPhone || desk.kitchen.customer.phone,
            }}
          />
        </div>
      ) : null}
    </>
  );
});

function Found({ kitchens, near }: { kitchens: FoundKitchen[]; near: NearKitchen[] }) {
  if (kitchens.length + near.length === 0)
    return <p role="status">Nothing on file has all of these words. Try fewer of them, or a piece of one.</p>;
  const shown: (NearKitchen & { unit?: string | null })[] = kitchens.length > 0 ? kitchens : near;
  return (
    <Sheet title={kitchens.length > 0 ? 'Which one?' : 'Nothing has all of these words. Nearest to them:'}>
      <ul>
        {shown.map((k) => (
          <li key={k.id} className="border-b border-line py-1.5 last:border-0">
            <Link href={`/jobs/call?kitchen=${k.id}`} className="font-bold">
              {fullKitchenName(k)}
            </Link>{' '}
            <span className="text-soft">{[k.address, k.phone, k.unit].filter(Boolean).join(' · ')}</span>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
