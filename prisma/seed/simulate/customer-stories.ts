import { createHash } from 'node:crypto';
import { RandomStream } from '../../../lib/core/numerics/random';
import type { Prisma } from '../../../lib/database/generated/client';
import type { World } from './world';

export type CustomerStories = {
  reports: Prisma.ReportSentCreateManyInput[];
  pages: Prisma.CustomerPageCreateManyInput[];
  letters: Prisma.OutboxMessageCreateManyInput[];
};

const DAY_MS = 86_400_000;
const CUSTOMER = 'Fenwick’s Fry House';
const hash = (text: string) => createHash('sha256').update(text).digest('hex');
/** Known to whoever reads this: a demo shop's links open nothing that is anybody's. */
const tokenOf = (seed: number, what: string) => createHash('sha256').update(`demo ${seed} ${what}`).digest('base64url');

/** What one customer has in hand: three reports, two of them opened, and a page that its manager opens, with its letter. */
export function customerStories(world: World, now: Date): CustomerStories {
  const random = new RandomStream(world.seed, 'customers');
  const kitchens = world.kitchens.filter((k) => k.place.seed.customer === CUSTOMER);
  const [first] = kitchens;
  if (!first) throw new Error(`No ${CUSTOMER}.`);
  const ids = new Set(kitchens.map((k) => String(k.place.kitchen.id)));
  const toEmail = `${first.place.seed.contact[0].toLowerCase().replace(/[^a-z]+/g, '.')}@kitchen.example`;
  const done = world.out.visits
    .filter((v) => v.status === 'done' && ids.has(v.kitchenId) && v.closedAt)
    .sort((a, b) => new Date(b.startsAt).getTime() - new Date(a.startsAt).getTime())
    .slice(0, 3);
  const reports = done.map((v, i) => {
    const createdAt = new Date(new Date(v.closedAt ?? now).getTime() + 3_600_000);
    const openedAt = i === 0 ? null : new Date(createdAt.getTime() + 2 * 3_600_000);
    return {
      id: random.uuid(),
      tokenHash: hash(tokenOf(world.seed, `report ${i}`)),
      visitId: String(v.id),
      language: 'en' as const,
      toEmail,
      sentById: world.desk,
      createdAt,
      expiresAt: new Date(createdAt.getTime() + 180 * DAY_MS),
      openedAt,
      openings: openedAt ? i : 0,
    };
  });
  const token = tokenOf(world.seed, 'page');
  const made = new Date(now.getTime() - 20 * DAY_MS);
  const holder = first.place.seed.contact[0];
  return {
    reports,
    pages: [
      {
        id: random.uuid(),
        tokenHash: hash(token),
        feedHash: hash(createHash('sha256').update(`calendar of ${token}`).digest('base64url')),
        customerId: String(first.place.kitchen.customerId),
        holder,
        toEmail,
        language: 'en',
        answersQuotes: true,
        createdById: world.desk,
        createdAt: made,
        expiresAt: new Date(made.getTime() + 365 * DAY_MS),
        openedAt: new Date(made.getTime() + DAY_MS),
        lastOpenedAt: new Date(now.getTime() - 2 * DAY_MS),
        openings: 6,
      },
    ],
    letters: [
      {
        id: random.uuid(),
        kind: 'customer_page',
        toEmail,
        subject: 'Your page at Larkspur Cold Service',
        text: `${holder},\n\nthis page shows every kitchen of ${CUSTOMER}: next visits, reports, quotes and open work.\nhttp://localhost:3000/yours/${token}`,
        status: 'sent',
        createdAt: made,
        sentAt: made,
      },
    ],
  };
}
