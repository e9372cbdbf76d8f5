import 'server-only';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { hashToken, looksLikeToken } from '../../links/reads/link-token';
import { feed } from '../../mail/verbs/invitation';

const PAST_MS = 30 * 86_400_000;

/** The calendar behind a secret address. Cancelled visits stay in it as cancelled, so that calendars drop them. @throws AppError not_found */
export async function readFeed({ db, now }: { db: Db; now: Date }, token: string): Promise<string> {
  const found = looksLikeToken(token)
    ? await db.calendarFeed.findUnique({ where: { tokenHash: hashToken(token) }, include: { user: true, kitchen: true } })
    : null;
  if (!found || found.revokedAt || (found.user && !found.user.active)) throw new AppError('not_found', 'No calendar here.');
  const { user, kitchen } = found;
  const whose = user ? { technicianId: user.id } : kitchen && { kitchenId: kitchen.id };
  if (!whose) throw new AppError('not_found', 'No calendar here.');
  const visits = await db.visit.findMany({
    where: {
      ...whose,
      endsAt: { gt: new Date(now.getTime() - PAST_MS) },
    },
    include: {
      kitchen: { include: { customer: { select: { name: true } } } },
      technician: { select: { name: true } },
      tasks: { include: { task: { include: { unit: true, kind: true } } } },
    },
    orderBy: { startsAt: 'asc' },
  });
  return feed(
    user ? `${user.name}, visits` : `${kitchen?.name ?? ''}, refrigeration visits`,
    visits.map((v) => ({
      id: v.id,
      sequence: v.sequence,
      startsAt: v.startsAt,
      endsAt: v.endsAt,
      createdAt: v.createdAt,
      cancelled: v.status === 'cancelled',
      location: v.kitchen.address,
      summary: found.user ? titleOf(v.kitchen) : `Refrigeration visit, ${v.technician.name}`,
      description: v.tasks
        .map((t) => `${t.task.unit.name}: ${t.task.kind.label.toLowerCase()}`)
        .sort()
        .join('\n'),
    })),
    now,
  );
}

/** "Fenwick's Fry House, Dock Street"; one name where both are the same. */
const titleOf = ({ name, customer }: { name: string; customer: { name: string } }) =>
  name === customer.name ? name : `${customer.name}, ${name}`;
