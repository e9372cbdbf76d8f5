import 'server-only';
import { shopSettings } from '../../shop/reads/settings';
import { longDayIn, timeIn } from '../../../core/calendar/when';
import { COIL_CLEANING } from '../../../core/tasks/kinds';
import type { Tx } from '../../../database/client';
import { hashToken, newToken } from '../../links/reads/link-token';
import { invitation } from './invitation';

export type VisitNews = 'booked' | 'moved' | 'cancelled' | 'reminder';

const SUBJECT: Record<VisitNews, string> = {
  booked: 'Visit booked',
  moved: 'Visit moved',
  cancelled: 'Visit cancelled',
  reminder: 'Visit tomorrow',
};

/**
 * Puts the message about a visit in the outbox, inside the caller's transaction, so that it can neither be lost nor
 * sent for a change that did not happen. @returns false where the kitchen has no e-mail on file, and nothing is written
 */
export async function composeVisitMessage(tx: Tx, visitId: string, news: VisitNews, at: { now: Date; baseUrl: string }): Promise<boolean> {
  const visit = await tx.visit.findUniqueOrThrow({
    where: { id: visitId },
    include: {
      kitchen: { include: { customer: true } },
      technician: true,
      tasks: { include: { task: { include: { unit: true, kind: true } } } },
    },
  });
  const to = visit.kitchen.contactEmail || visit.kitchen.customer.email;
  if (!to) return false;
  const shop = await shopSettings(tx);
  const shopName = shop?.name ?? 'Your refrigeration shop';
  const zone = visit.kitchen.timeZone;
  const time = `${longDayIn(visit.startsAt, zone)} at ${timeIn(visit.startsAt, zone)} to ${timeIn(visit.endsAt, zone)}`;

  // A reminder leaves the links of before alive: nothing has changed.
  if (news !== 'reminder') await tx.customerLink.updateMany({ where: { visitId, revokedAt: null }, data: { revokedAt: at.now } });
  let link = '';
  if (news !== 'cancelled') {
    const token = newToken();
    await tx.customerLink.create({ data: { tokenHash: hashToken(token), visitId, expiresAt: visit.startsAt, createdAt: at.now } });
    link = `${at.baseUrl}/visit/${token}`;
  }

  const work = [...new Set(visit.tasks.map((t) => `${t.task.unit.name}: ${t.task.kind.label.toLowerCase()}`))].sort();
  const cleans = visit.tasks.some((t) => t.task.kindKey === COIL_CLEANING);
  const lines = [
    news === 'cancelled'
      ? `Our visit to ${visit.kitchen.name} on ${time} is cancelled. Reason: ${visit.cancelReason}.`
      : `${news === 'reminder' ? 'Tomorrow: ' : ''}${visit.technician.name} of ${shopName} comes to ${visit.kitchen.name} on ${time}.`,
    '',
    ...(news === 'cancelled'
      ? []
      : [
          'We look after:',
          ...work.map((w) => `- ${w}`),
          '',
          ...(cleans
            ? ['Units are switched off in turn while their coils are cleaned; keep doors closed and food cold meanwhile.', '']
            : []),
          `Confirm, or ask for another time: ${link}`,
        ]),
    '',
    [shopName, shop?.phone, shop?.email].filter(Boolean).join(' · '),
  ];
  const text = lines.join('\n');
  const { method, text: ics } = invitation(
    {
      id: visit.id,
      sequence: visit.sequence,
      startsAt: visit.startsAt,
      endsAt: visit.endsAt,
      createdAt: visit.createdAt,
      summary: `${shopName}: ${visit.kitchen.name}`,
      description: work.join('\n'),
      location: visit.kitchen.address,
      cancelled: news === 'cancelled',
    },
    {
      organizer: { name: shopName, email: shop?.email || 'office@rimebook.invalid' },
      attendee: { name: visit.kitchen.contactName || visit.kitchen.name, email: to },
    },
    at.now,
  );
  await tx.outboxMessage.create({
    data: {
      kind: `visit_${news}`,
      toEmail: to,
      subject: `${SUBJECT[news]}: ${visit.kitchen.name}, ${time}`,
      text,
      ics,
      icsMethod: method,
      visitId,
      createdAt: at.now,
    },
  });
  return true;
}
