import 'server-only';
import Papa from 'papaparse';
import { guarded, unguarded } from '../../../core/fleet-csv';
import { PART_COLUMNS, readParts, VAN_COLUMN, type PartProblem } from '../../../core/jobs';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db, Tx } from '../../../database/client';
import type { AddWarranty, SavePart } from '../../../schemas/shop/parts';
import { readCsv } from '../../fleet-csv/verbs/read-csv';
import { partsOnFile, vansOfShop } from '../reads/parts';

type Ctx = { db: Db; actor: Pick<Actor, 'userId'>; now: Date };

/** Puts a part on the list, or changes the one of that number; what is not said of that one stays. */
export async function savePart({ db }: Ctx, { price, ...rest }: SavePart): Promise<void> {
  const part = { ...rest, priceCents: price, archivedAt: null };
  await db.part.upsert({ where: { number: part.number }, create: part, update: { ...part, version: { increment: 1 } } });
}

/** Takes a file of parts in, all of it or nothing: new numbers are added, known ones changed, others left as they are. */
export async function importParts({ db }: Ctx, csv: string): Promise<{ problems: PartProblem[]; added: number; changed: number }> {
  const { lines, problems } = readCsv(csv);
  const broken = problems.filter((p) => p.severity === 'error').map(({ line, column, message }) => ({ line, column, message }));
  const read = readParts(
    lines.map(({ line, cells }) => ({ line, cells: cells.map(unguarded) })),
    await vansOfShop(db),
  );
  if (broken.length + read.problems.length > 0) return { problems: [...broken, ...read.problems].slice(0, 50), added: 0, changed: 0 };
  return db.$transaction(
    async (tx) => {
      const numbersBefore = new Set((await tx.part.findMany({ select: { number: true } })).map((p) => p.number));
      for (const { vans, ...row } of read.rows) {
        const { id: partId } = await tx.part.upsert({
          where: { number: row.number },
          create: row,
          update: { ...row, archivedAt: null, version: { increment: 1 } },
          select: { id: true },
        });
        for (const { technicianId, pieces } of vans)
          await tx.partInVan.upsert({
            where: { partId_technicianId: { partId, technicianId } },
            create: { partId, technicianId, pieces },
            update: { pieces },
          });
      }
      const changed = read.rows.filter((r) => numbersBefore.has(r.number)).length;
      return { problems: [], added: read.rows.length - changed, changed };
    },
    { timeout: 60_000 },
  );
}

/** The list as a file that can come back in. */
export async function exportParts({ db }: { db: Tx }): Promise<string> {
  const vans = await vansOfShop(db);
  const rows = (await partsOnFile(db)).map((p) => [
    guarded(p.number),
    guarded(p.name),
    (p.priceCents / 100).toFixed(2),
    String(p.inVan),
    String(p.inShop),
    p.warrantyMonths === null ? '' : String(p.warrantyMonths),
    ...vans.map((v) => String(p.vans.find((x) => x.technicianId === v.id)?.pieces ?? 0)),
  ]);
  const columns = [...PART_COLUMNS, ...vans.map((v) => guarded(`${VAN_COLUMN}${v.name}`))];
  return `\uFEFF${Papa.unparse([columns, ...rows], { newline: '\r\n' })}\r\n`;
}

/** Writes down until when somebody else pays for a unit of a job's kitchen, or a part of it. @throws AppError not_found */
export async function addWarranty({ db, actor, now }: Ctx, { jobId, unitId, what, until, note }: AddWarranty): Promise<void> {
  const unit = await db.unit.findFirst({ where: { id: unitId, kitchen: { jobs: { some: { id: jobId } } } }, select: { id: true } });
  if (!unit) throw new AppError('not_found', 'That unit is not on file at this kitchen.', 'unitId');
  await db.warranty.create({
    data: { unitId, what, until: new Date(`${until}T00:00:00Z`), note, createdById: actor.userId, createdAt: now },
  });
}
