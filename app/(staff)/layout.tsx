import type { ReactNode } from 'react';
import { redirect } from 'next/navigation';
import { can, ROLE_LABEL, type Permission } from '@/lib/core/access';
import { currentActor } from '@/lib/server/session';
import { Mark } from '../_ui/mark';
import { Nav, type NavItem } from '../_ui/nav';
import { SignOut } from './_components/sign-out';

const ROOMS: (NavItem & { permission: Permission })[] = [
  { href: '/owner', label: 'Fouling', permission: 'manage:shop' },
  { href: '/due', label: 'Due', permission: 'read:due' },
  { href: '/week', label: 'Week', permission: 'read:visit' },
  { href: '/round', label: 'Round', permission: 'fill:visit:own' },
  { href: '/customers', label: 'Kitchens', also: ['/kitchens', '/units'], permission: 'read:equipment' },
  { href: '/rules', label: 'Rules', permission: 'overrule:rules' },
  { href: '/refrigerants', label: 'P–T', permission: 'look-up:refrigerant' },
  { href: '/outbox', label: 'Outbox', permission: 'read:messages' },
  { href: '/people', label: 'People', permission: 'manage:people' },
  { href: '/shop', label: 'Shop', permission: 'manage:shop' },
];

export default async function StaffLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor();
  if (!actor) redirect('/sign-in');
  const items = ROOMS.filter((r) => can(actor, r.permission)).map(({ href, label, also }) => ({ href, label, also }));
  return (
    <>
      <a href="#main" className="sr-only focus:not-sr-only focus:absolute focus:left-3 focus:top-3 focus:z-50 focus:rounded-md focus:bg-sheet focus:p-3">
        Skip to the page
      </a>
      <header className="border-b border-line bg-sheet no-print">
        <div className="mx-auto flex max-w-[88rem] flex-wrap items-center gap-x-6 gap-y-2 px-4 py-2">
          <span className="flex items-center gap-2 text-lg font-bold text-cold">
            <Mark /> Rimebook
          </span>
          <Nav items={items} />
          <div className="ml-auto flex items-center gap-3 text-sm">
            <a href="/me" className="text-ink">
              {actor.name}, {ROLE_LABEL[actor.role].toLowerCase()}
            </a>
            <SignOut />
          </div>
        </div>
      </header>
      <main id="main" className="mx-auto max-w-[88rem] px-4 py-6">
        {children}
      </main>
    </>
  );
}
