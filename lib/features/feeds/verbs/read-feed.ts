import 'server-only';
import { wordsIn, type Language } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import { taskWords } from '../../../core/reports/customer-lines';
import type { Db } from '../../../database/client';
import { kitchenIds, pageByCalendar } from '../../customer-pages/reads/page-link';
import { hashToken, looksLikeToken } from '../../links/reads/link-token';
import { feed } from '../../mail/verbs/invitation';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

const PAST_MS = 30 * 86_400_000;

/** The calendar behind a secret address. Cancelled visits stay in it as cancelled, so that calendars drop them. @throws AppError not_found */
export async function readFeed({ db, now }: { db: Db; now: Date }, token: string): Promise<string> {
  const whose = await ownerOf(db, token, now);
  if (!whose) throw new AppError('not_found', 'No calendar here.');
  const visits = await db.visit.findMany({
    where: {
      ...whose.visits,
      endsAt: { gt: new Date(now.getTime() - PAST_MS) },
    },
    include: {
      kitchen: { include: { customer: { select: { name: true } } } },
      technician: { select: { name: true } },
      tasks: { include: { task: { include: { unit: true, kind: true } } } },
    },
    orderBy: { startsAt: 'asc' },
  });
  const texts = wordsIn(whose.language);
  return feed(
    whose.name,
    visits.map((v) => ({
      id: v.id,
      sequence: v.sequence,
      startsAt: v.startsAt,
      endsAt: v.endsAt,
      createdAt: v.createdAt,
      cancelled: v.status === 'cancelled',
      location: v.kitchen.address,
      summary: whose.titled ? fullKitchenName(v.kitchen) : texts.visit.calendar.visit(v.technician.name),
      description: v.tasks
        .map(({ task: t }) => texts.visit.work(t.unit.name, taskWords(texts, { kind: t.kindKey, label: t.kind.label })))
        .sort()
        .join('\n'),
    })),
    now,
  );
}

/** Whose calendar an address is: a technician's, a kitchen's, or that of a customer's page. `titled`: visits are named by their kitchen. */
async function ownerOf(db: Db, token: string, now: Date) {
  if (!looksLikeToken(token)) return null;
  const found = await db.calendarFeed.findUnique({
    where: { tokenHash: hashToken(token) },
    include: { user: true, kitchen: { include: { customer: { select: { language: true } } } } },
  });
  if (found) {
    const { user, kitchen } = found;
    if (found.revokedAt || (user && !user.active) || kitchen?.archivedAt) return null;
    if (user) return { visits: { technicianId: user.id }, name: `${user.name}, visits`, titled: true, language: 'en' as const };
    return (
      kitchen && {
        visits: { kitchenId: kitchen.id },
        name: calendarName(kitchen.name, kitchen.customer.language),
        titled: false,
        language: kitchen.customer.language,
      }
    );
  }
  const page = await pageByCalendar(db, token, now);
  if (!page) return null;
  const only = page.kitchens.length === 1 ? page.kitchens[0] : undefined;
  return {
    visits: { kitchenId: { in: kitchenIds(page) } },
    name: calendarName(only?.name ?? page.customer.name, page.language),
    language: page.language,
    titled: !only,
  };
}

const calendarName = (whose: string, language: Language) => wordsIn(language).visit.calendar.name(whose);
