import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { coveredUntil, PART_PLACE_LABEL, piecesTaken, type PartPlace } from '../../../core/parts';
import type { Prisma, Tx } from '../../../database/client';

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
type Row = Omit<Used, 'partId' | 'place'>;
type Part = Prisma.PartGetPayload<object>;
type Given = { used: Used; on: LocalDate; by: string; note: (message: string) => void };

const COLUMN = { van: 'inVan', shop: 'inShop' } as const;

/**
 * Writes a part down that was used, inside the caller's transaction. One of the shop's list is counted down where it was
 * taken, as far as the list has any, and its warranty begins.
 */
export async function writePartUsed(tx: Tx, { used, on, by, note }: Given): Promise<void> {
  const { partId = null, place = null, ...row } = used;
  const part = partId === null ? null : await lockedPart(tx, partId);
  if (part) {
    await takeOfList(tx, part, place, row, note);
    if (row.unitId && part.warrantyMonths) await beginWarranty(tx, part, { ...row, unitId: row.unitId }, { on, by });
    return;
  }
  if (partId !== null) note(`“${row.what}” is not on the list of parts any more. It is filed by its name.`);
  await tx.partUsed.create({ data: row });
}

async function lockedPart(tx: Tx, id: string): Promise<Part | null> {
  await tx.$queryRaw`SELECT id FROM "Part" WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.part.findUnique({ where: { id } });
}

async function takeOfList(tx: Tx, part: Part, place: PartPlace | null, row: Row, note: Given['note']): Promise<void> {
  const wanted = piecesTaken(row.quantity);
  const taken = place === null ? 0 : Math.min(wanted, part[COLUMN[place]]);
  await tx.partUsed.create({ data: { ...row, partId: part.id, place, taken } });
  if (place === null) return;
  if (taken > 0) await tx.part.update({ where: { id: part.id }, data: { [COLUMN[place]]: { decrement: taken } } });
  if (taken < wanted)
    note(`The list had ${part[COLUMN[place]]} of ${part.number} in ${PART_PLACE_LABEL[place]}, and ${wanted} were taken. Count them.`);
}

async function beginWarranty(tx: Tx, part: Part, row: Row & { unitId: string }, { on, by }: Pick<Given, 'on' | 'by'>): Promise<void> {
  await tx.warranty.create({
    data: {
      unitId: row.unitId,
      what: part.name,
      until: fromLocalDate(coveredUntil(on, part.warrantyMonths ?? 0)),
      note: `Put in new, part ${part.number}`,
      partUsedId: row.id,
      createdById: by,
      createdAt: row.at,
    },
  });
}

/** Takes back that a part was used: its pieces lie where they lay, and its warranty never began. Gives back how many entries there were. */
export async function strikePartUsed(tx: Tx, where: { id: string; visitId: string }): Promise<number> {
  const used = await tx.partUsed.findFirst({ where, select: { partId: true, place: true, taken: true } });
  if (!used) return 0;
  if (used.partId && used.place && used.taken > 0)
    await tx.part.update({ where: { id: used.partId }, data: { [COLUMN[used.place]]: { increment: used.taken } } });
  return (await tx.partUsed.deleteMany({ where })).count;
}
