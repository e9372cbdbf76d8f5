import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { coveredUntil, inOwnVan, PART_PLACE_LABEL, piecesTaken, type PartPlace } from '../../../core/parts';
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
type Part = Prisma.PartGetPayload<{ include: { vans: true } }>;
type Given = { used: Used; on: LocalDate; by: string; note: (words: string) => void };

/** A heap of pieces on the list: the shop's, those of somebody's van, or those in a van that nobody said whose it is. */
type Heap = { place: PartPlace; vanOfId: string | null };

/** Pieces put on a heap of the list, or with a count below nothing taken off it. */
export async function putOnHeap(tx: Tx, partId: string, { place, vanOfId: technicianId }: Heap, pieces: number): Promise<void> {
  const change = { increment: pieces };
  if (place === 'van' && technicianId !== null) {
    const van = { partId, technicianId };
    await tx.partInVan.createMany({ data: [van], skipDuplicates: true });
    await tx.partInVan.update({ where: { partId_technicianId: van }, data: { pieces: change } });
  } else await tx.part.update({ where: { id: partId }, data: place === 'van' ? { inVan: change } : { inShop: change } });
}

/** Where somebody takes a part from, and how many lie there. */
function heapOf(part: Part, place: PartPlace, technicianId: string): Heap & { pieces: number } {
  if (place === 'shop') return { place, vanOfId: null, pieces: part.inShop };
  const own = part.vans.some((v) => v.technicianId === technicianId && v.pieces > 0);
  return { place, vanOfId: own ? technicianId : null, pieces: inOwnVan(part, technicianId) };
}

/**
 * Writes a part down that was used, inside the caller's transaction. One of the shop's list is counted down where it was
 * taken, as far as the list has any, and its warranty begins.
 */
export async function writePartUsed(tx: Tx, { used, on, by, note }: Given): Promise<void> {
  const { partId = null, place = null, ...row } = used;
  const part = partId === null ? null : await lockedPart(tx, partId);
  if (part) {
    await takeOfList(tx, part, place, row, { by, note });
    if (row.unitId && part.warrantyMonths) await beginWarranty(tx, part, { ...row, unitId: row.unitId }, { on, by });
    return;
  }
  if (partId !== null) note(`“${row.what}” is not on the list of parts any more. It is filed by its name.`);
  await tx.partUsed.create({ data: row });
}

export async function lockedPart(tx: Tx, id: string): Promise<Part | null> {
  await tx.$queryRaw`SELECT id FROM "Part" WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.part.findUnique({ where: { id }, include: { vans: true } });
}

async function takeOfList(tx: Tx, part: Part, place: PartPlace | null, row: Row, { by, note }: Pick<Given, 'by' | 'note'>): Promise<void> {
  const wanted = piecesTaken(row.quantity);
  const heap = place && heapOf(part, place, by);
  const taken = heap ? Math.min(wanted, heap.pieces) : 0;
  await tx.partUsed.create({ data: { ...row, partId: part.id, place, vanOfId: heap && heap.vanOfId, taken } });
  if (!heap) return;
  if (taken > 0) await putOnHeap(tx, part.id, heap, -taken);
  if (taken < wanted)
    note(`The list had ${heap.pieces} of ${part.number} in ${PART_PLACE_LABEL[heap.place]}, and ${wanted} were taken. Count them.`);
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
  const used = await tx.partUsed.findFirst({ where, select: { partId: true, place: true, vanOfId: true, taken: true } });
  if (!used) return 0;
  if (used.partId && used.place && used.taken > 0)
    await putOnHeap(tx, used.partId, { place: used.place, vanOfId: used.vanOfId }, used.taken);
  return (await tx.partUsed.deleteMany({ where })).count;
}
