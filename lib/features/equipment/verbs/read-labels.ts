import 'server-only';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';

export type Label = { tag: string; unit: string; kitchen: string };
export type LabelSheet = { kitchen: string; labels: Label[] };

/**
 * Labels of a kitchen's units, or of one unit.
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
  return { kitchen: kitchen.name, labels: units.map((u) => ({ tag: u.tag, unit: u.name, kitchen: kitchen.name })) };
}
