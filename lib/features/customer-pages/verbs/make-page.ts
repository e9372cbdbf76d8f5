import 'server-only';
import { todayIn } from '../../../core/calendar';
import { customerFullDate } from '../../../core/calendar/when';
import { wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { MakePage, RevokePage } from '../../../schemas/customers/customer-pages';
import { auditBy, writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { calendarToken, hashToken, newToken } from '../../links/reads/link-token';
import { shopSettings } from '../../shop/reads/settings';

const LASTS_MS = 365 * 24 * 3_600_000;

/**
 * Makes a link to a customer's page, of all its kitchens or of one, and puts a letter with it in the outbox where there is
 * an address. The link is told once, here.
 * @throws AppError not_found | invalid
 */
export function makePage(
  { db, actor, now, baseUrl }: ServiceContext & { baseUrl: string },
  input: MakePage,
): Promise<{ link: string; mailed: boolean }> {
  return withinTransaction(db, async (tx) => {
    const { customer, kitchen } = await theirs(tx, input);
    const { customerId, holder, toEmail } = input;
    const token = newToken();
    const expiresAt = new Date(now.getTime() + LASTS_MS);
    const link = `${baseUrl}/yours/${token}`;
    const by = actor?.userId ?? null;
    await tx.customerPage.create({
      data: {
        ...input,
        kitchenId: kitchen?.id ?? null,
        tokenHash: hashToken(token),
        feedHash: hashToken(calendarToken(token)),
        createdById: by,
        createdAt: now,
        expiresAt,
      },
    });
    if (toEmail) await writeTo(tx, input, { link, shows: kitchen?.name, customer: customer.name, now, expiresAt });
    await writeAudit(tx, {
      at: now,
      userId: by,
      action: 'customer.page_made',
      entity: 'Customer',
      entityId: customerId,
      detail: { holder, kitchen: kitchen?.name ?? 'all' },
    });
    return { link, mailed: toEmail !== '' };
  });
}

async function theirs(tx: Tx, { customerId, kitchenId }: MakePage) {
  const customer = await tx.customer.findFirst({
    where: { id: customerId, archivedAt: null },
    include: { kitchens: { where: { archivedAt: null }, select: { id: true, name: true } } },
  });
  if (!customer) throw new AppError('not_found', 'That customer is not on file.');
  if (customer.kitchens.length === 0) throw new AppError('invalid', 'Put a kitchen of theirs on file first: the page would be empty.');
  const kitchen = kitchenId ? customer.kitchens.find((k) => k.id === kitchenId) : null;
  if (kitchen === undefined) throw new AppError('invalid', 'That kitchen is not on file at this customer.', 'kitchenId');
  return { customer, kitchen };
}

type Letter = { link: string; shows: string | undefined; customer: string; now: Date; expiresAt: Date };

async function writeTo(tx: Tx, { language, holder, toEmail }: MakePage, { link, shows, customer, now, expiresAt }: Letter): Promise<void> {
  const { letter } = wordsIn(language).yours;
  const shop = await shopSettings(tx);
  const until = customerFullDate(todayIn(shop?.timeZone ?? 'UTC', expiresAt.getTime()), language);
  const text = [
    letter.text(holder, shows ?? letter.allKitchens(customer), link, until),
    '',
    [shop?.name, shop?.phone, shop?.email].filter(Boolean).join(' · '),
  ].join('\n');
  await tx.outboxMessage.create({
    data: { kind: 'customer_page', toEmail, subject: letter.subject(shop?.name ?? ''), text, createdAt: now },
  });
}

/** Takes a link back: page and calendar open no more. @throws AppError conflict */
export async function revokePage({ db, actor, now }: ServiceContext, { id }: RevokePage): Promise<void> {
  await withinTransaction(db, async (tx) => {
    const { count } = await tx.customerPage.updateMany({ where: { id, revokedAt: null }, data: { revokedAt: now } });
    if (count === 0) throw new AppError('conflict', 'That link was taken back already.');
    const page = await tx.customerPage.findUniqueOrThrow({ where: { id }, select: { customerId: true, holder: true } });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'customer.page_revoked',
        entity: 'Customer',
        entityId: page.customerId,
        detail: { holder: page.holder },
      },
    );
  });
}
