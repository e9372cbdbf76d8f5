import { can, type Actor, type Permission } from '@/lib/core/people/access';

type Page = { href: string; label: string; permission: Permission; also?: string };

/** Pages within the rooms, as the finder offers them; `also` is what else one may look for them by. */
const WITHIN: readonly Page[] = [
  { href: '/owner/fouling', label: 'Who fouls fastest', permission: 'read:fouling', also: 'fouling ranking dirt cost' },
  { href: '/owner/shop', label: 'The shop’s work', permission: 'read:fouling', also: 'owner overdue reasons hours road' },
  { href: '/owner/right', label: 'Is it right?', permission: 'read:fouling', also: 'owner expected proved wrong' },
  { href: '/jobs/call', label: 'Take a call', permission: 'write:job', also: 'phone rings breakdown' },
  { href: '/week/squeeze', label: 'Find a time', permission: 'book:visit', also: 'emergency breakdown' },
  { href: '/week/away', label: 'Somebody is away', permission: 'book:visit', also: 'sick ill hand on' },
  { href: '/week/travel', label: 'Driving minutes', permission: 'plan:week', also: 'travel roads' },
  { href: '/week/calendars', label: 'Calendar addresses', permission: 'book:visit', also: 'feed' },
  { href: '/entries', label: 'Entries to look at', permission: 'settle:entry', also: 'tablet' },
  { href: '/parts', label: 'Parts', permission: 'write:part', also: 'van stock' },
  { href: '/customers/import', label: 'Bring in a sheet', permission: 'import:equipment', also: 'import fleet csv excel' },
  { href: '/customers/positions', label: 'Positions', permission: 'write:equipment', also: 'map pin address' },
  { href: '/rules/what-if', label: 'What if', permission: 'overrule:rules', also: 'rules intervals' },
  { href: '/refrigerants/book', label: 'Refrigerant book', permission: 'read:refrigerant-book', also: 'cylinder' },
  { href: '/shop/changes', label: 'What was changed', permission: 'export:everything', also: 'audit history who log' },
  { href: '/shop/archive', label: 'Everything as one file', permission: 'export:everything', also: 'archive zip' },
];

/** Those that somebody may open, with what else to find them by. */
export const pagesWithin = (actor: Actor) =>
  WITHIN.filter((p) => can(actor, p.permission)).map(({ href, label, also = '' }) => ({ href, label, also }));
