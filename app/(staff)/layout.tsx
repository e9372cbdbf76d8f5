import type { ReactNode } from 'react';
import Link from 'next/link';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { can, roleInfo, type Permission } from '@/lib/core/people/access';
import { officeFrame } from '@/lib/features/shop/reads/frame';
import { habits } from '@/lib/core/measures/habits';
import { now } from '@/lib/server/process/clock';
import { db } from '@/lib/server/process/db';
import { signInAddress } from '@/lib/server/doors/guard';
import { ADDRESS } from '@/lib/server/process/requests';
import { currentActor } from '@/lib/server/people/session';
import { OwnWords } from '@/app/_ui/words/own-words';
import { Mark } from '@/app/_ui/page/mark';
import { Nav, type NavItem } from '@/app/_ui/page/nav';
import { EntriesLink } from './_components/entries-link';
import { Finder } from './_components/finder';
import { pagesWithin } from './_components/pages';
import { WrittenAs } from './_components/written-as';
import { SignOut } from './_components/sign-out';

const ROOMS: (NavItem & { permission: Permission })[] = [
  { href: '/owner', label: 'Owner', permission: 'manage:shop' },
  { href: '/due', label: 'Due', permission: 'read:due' },
  { href: '/jobs', label: 'Jobs', also: ['/parts'], permission: 'read:job' },
  { href: '/week', label: 'Week', permission: 'read:visit' },
  { href: '/round', label: 'Round', permission: 'fill:visit:own' },
  { href: '/customers', label: 'Kitchens', also: ['/kitchens', '/units'], permission: 'read:equipment' },
  { href: '/rules', label: 'Rules', permission: 'overrule:rules' },
  { href: '/refrigerants', label: 'Refrigerants', permission: 'look-up:refrigerant' },
  { href: '/outbox', label: 'Outbox', permission: 'read:messages' },
  { href: '/people', label: 'People', permission: 'manage:people' },
  { href: '/shop', label: 'Shop', permission: 'manage:shop' },
];

export default async function StaffLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor();
  if (!actor) redirect(signInAddress((await headers()).get(ADDRESS)));
  const items: NavItem[] = ROOMS.filter((r) => can(actor, r.permission)).map(({ href, label, also }) => ({ href, label, also }));
  // Until the first visit is booked, the way back to the first day's list stands first.
  const frame = await officeFrame(db(), now());
  if (can(actor, 'read:due') && frame.firstDay) items.unshift({ href: '/first-day', label: 'First day' });
  // Twelve rooms (an owner's first days) do not fit beside the name at 1280 px: they keep their own row there.
  const oneRow = items.length < 12;
  const asked = can(actor, 'read:job') ? frame.asked : 0;
  const waiting = can(actor, 'settle:entry') ? frame.waiting : 0;
  return (
    <>
      <WrittenAs habits={habits()} />
      <a
        href="#main"
        className="sr-only focus:not-sr-only focus:absolute focus:left-3 focus:top-3 focus:z-50 focus:rounded-md focus:bg-sheet focus:p-3"
      >
        Skip to the page
      </a>
      <header className="border-b border-line bg-sheet no-print">
        <div
          className={`mx-auto flex max-w-[88rem] flex-wrap items-center gap-x-2 px-4 pt-1 sm:gap-x-6 ${oneRow ? 'xl:flex-nowrap xl:pt-0.5' : ''}`}
        >
          <Link href="/" className="flex min-h-10 items-center gap-2 text-lg font-bold text-cold no-underline">
            <Mark /> Rimebook
          </Link>
          <Nav
            items={items}
            className={`order-last -mx-4 w-[calc(100%+2rem)] scroll-fade px-4 ${oneRow ? 'xl:order-none xl:mx-0 xl:w-auto xl:min-w-0 xl:px-1' : ''}`}
          />
          <div className="ml-auto flex shrink-0 items-center gap-1 whitespace-nowrap text-sm">
            {can(actor, 'read:equipment') ? (
              <Finder
                rooms={[
                  ...[...items, { href: '/me', label: 'Me' }].map(({ href, label }) => ({ href, label, also: '' })),
                  ...pagesWithin(actor),
                ]}
              />
            ) : null}
            <Link
              href="/me"
              className="inline-flex min-h-10 items-center whitespace-nowrap rounded-md px-1 text-ink sm:px-2 no-underline hover:underline"
            >
              <span className="pr-1 sm:hidden">Me</span>
              <span className="max-sm:sr-only">{actor.name}</span>
              <span className="sr-only 2xl:not-sr-only 2xl:whitespace-pre">, {roleInfo(actor.role).label.toLowerCase()}</span>
            </Link>
            <SignOut />
          </div>
        </div>
        <EntriesLink waiting={waiting} asked={asked} />
      </header>
      <main id="main" className="mx-auto max-w-[88rem] px-4 py-6">
        <OwnWords person={actor.userId}>{children}</OwnWords>
      </main>
    </>
  );
}
