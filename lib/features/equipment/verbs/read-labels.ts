import 'server-only';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';

export type Label = { tag: string; unit: string; kitchen: string };
export type LabelSheet = { kitchen: string; paper: 'A4' | 'LETTER'; labels: Label[] };

/**
 * Labels of a kitchen's units, or of one unit. Letter paper where the shop reckons in US or Canadian dollars.
 * @throws AppError not_found
 */
export async function readLabels({ db }: { db: Tx }, asked: { kitchenId: string; unitId?: string }): Promise<LabelSheet> {
  const kitchen = await db.kitchen.findUnique({ where: { id: asked.kitchenId }, select: { name: true } });
  const units = await db.unit.findMany({
    where: { kitchenId: asked.kitchenId, archivedAt: null, id: asked.unitId },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
    select: { tag: true, name: true },
  });
  if (!kitchen || units.length === 0) throw new AppError('not_found', 'There is no unit on file here to print a label for.');
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { currency: true } });
  const paper = ['USD', 'CAD'].includes(shop?.currency ?? 'USD') ? 'LETTER' : 'A4';
  return { kitchen: kitchen.name, paper, labels: units.map((u) => ({ tag: u.tag, unit: u.name, kitchen: kitchen.name })) };
}
