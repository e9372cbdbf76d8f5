import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { coveredUntil, piecesTaken, type PartPlace } from '../../../core/parts';
import type { Tx } from '../../../database/client';

type Used = {
  id: string;
  visitId: string;
  unitId: string | null;
  what: string;
  quantity: number;
  partId?: string | null;
  place?: PartPlace | null;
  at: Date;
};
type Given = { used: Used; on: LocalDate; by: string; note: (words: string) => void };

const COLUMN = { van: 'inVan', shop: 'inShop' } as const;

/**
 * Writes a part down that was used, inside the caller's transaction. One of the shop's list is counted down where it was
 * taken, as far as the list has any, and its warranty begins.
 */
export async function usePart(tx: Tx, { used, on, by, note }: Given): Promise<void> {
  const { partId = null, place = null, ...row } = used;
  if (partId) await tx.$queryRaw`SELECT id FROM "Part" WHERE id = ${partId}::uuid FOR UPDATE`;
  const part = partId ? await tx.part.findUnique({ where: { id: partId } }) : null;
  if (partId && !part) note(`“${row.what}” is not on the list of parts any more. It is filed by its name.`);
  if (!part) {
    await tx.partUsed.create({ data: row });
    return;
  }
  const wanted = piecesTaken(row.quantity);
  const taken = place ? Math.min(wanted, part[COLUMN[place]]) : 0;
  await tx.partUsed.create({ data: { ...row, partId: part.id, place, taken } });
  if (place && taken > 0) await tx.part.update({ where: { id: part.id }, data: { [COLUMN[place]]: { decrement: taken } } });
  if (place && taken < wanted)
    note(
      `The list had ${part[COLUMN[place]]} of ${part.number} in ${place === 'van' ? 'the van' : 'the shop'}, and ${wanted} were taken. Count them.`,
    );
  if (row.unitId && part.warrantyMonths)
    await tx.warranty.create({
      data: {
        unitId: row.unitId,
        what: part.name,
        until: fromLocalDate(coveredUntil(on, part.warrantyMonths)),
        note: `Put in new, part ${part.number}`,
        partUsedId: row.id,
        createdById: by,
        createdAt: row.at,
      },
    });
}

/** Takes back that a part was used: its pieces lie where they lay, and its warranty never began. Gives back how many entries there were. */
export async function unusePart(tx: Tx, where: { id: string; visitId: string }): Promise<number> {
  const used = await tx.partUsed.findFirst({ where, select: { partId: true, place: true, taken: true } });
  if (!used) return 0;
  if (used.partId && used.place && used.taken > 0)
    await tx.part.update({ where: { id: used.partId }, data: { [COLUMN[used.place]]: { increment: used.taken } } });
  return (await tx.partUsed.deleteMany({ where })).count;
}
