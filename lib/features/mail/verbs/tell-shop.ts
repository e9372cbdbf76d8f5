import 'server-only';
import type { Tx } from '../../../database/client';
import { shopSettings } from '../../shop/reads/settings';

/** Writes to the shop itself that a customer asks for something; nothing where it has no address on file. */
export async function tellShop(tx: Tx, now: Date, { subject, lines }: { subject: string; lines: readonly string[] }): Promise<void> {
  const shop = await shopSettings(tx);
  if (!shop?.email) return;
  await tx.outboxMessage.create({ data: { kind: 'customer_call', toEmail: shop.email, subject, text: lines.join('\n'), createdAt: now } });
}
