import { can, type Actor, type Permission } from '@/lib/core/people/access';

type Page = { href: string; label: string; permission: Permission; words?: string };

/** Pages within the rooms, as the finder offers them; `words` are what else one may look for them by. */
const WITHIN: readonly Page[] = [
  { href: '/owner/fouling', label: 'Who fouls fastest', permission: 'read:fouling', words: 'fouling ranking dirt cost' },
  { href: '/owner/shop', label: 'The shop’s work', permission: 'read:fouling', words: 'owner overdue reasons hours road' },
  { href: '/owner/right', label: 'Is it right?', permission: 'read:fouling', words: 'owner expected proved wrong' },
  { href: '/jobs/call', label: 'Take a call', permission: 'write:job', words: 'phone rings breakdown' },
  { href: '/week/squeeze', label: 'Find a time', permission: 'book:visit', words: 'emergency breakdown' },
  { href: '/week/away', label: 'Somebody is away', permission: 'book:visit', words: 'sick ill hand on' },
  { href: '/week/travel', label: 'Driving minutes', permission: 'plan:week', words: 'travel roads' },
  { href: '/week/calendars', label: 'Calendar addresses', permission: 'book:visit', words: 'feed' },
  { href: '/entries', label: 'Entries to look at', permission: 'settle:entry', words: 'tablet' },
  { href: '/parts', label: 'Parts', permission: 'write:part', words: 'van stock' },
  { href: '/customers/import', label: 'Bring in a sheet', permission: 'import:equipment', words: 'import fleet csv excel' },
  { href: '/customers/positions', label: 'Positions', permission: 'write:equipment', words: 'map pin address' },
  { href: '/rules/what-if', label: 'What if', permission: 'overrule:rules', words: 'rules intervals' },
  { href: '/refrigerants/book', label: 'Refrigerant book', permission: 'read:refrigerant-book', words: 'cylinder' },
  { href: '/shop/archive', label: 'Everything as one file', permission: 'export:everything', words: 'archive zip' },
];

/** Those that somebody may open, with the words to find them by. */
export const pagesWithin = (actor: Actor) =>
  WITHIN.filter((p) => can(actor, p.permission)).map(({ href, label, words = '' }) => ({ href, label, words }));
