import 'server-only';
import { STORED_AUDIT_DETAIL } from '../../../database/stored/records';
import { dayIn } from '../../../core/calendar/when';
import { AppError } from '../../../core/errors';
import type { Prisma, Tx } from '../../../database/client';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

/** What went out of use together comes back together. */
export type OffFile = { kitchenIds: string[]; unitIds: string[]; taskIds: string[] };

/** Takes units and their tasks out of use. A unit on an open visit stays. @throws AppError conflict */
export async function takeUnitsOff(tx: Tx, where: Prisma.UnitWhereInput, now: Date, why: string): Promise<Omit<OffFile, 'kitchenIds'>> {
  const units = await tx.unit.findMany({ where: { ...where, archivedAt: null }, select: { id: true } });
  const unitIds = units.map((u) => u.id);
  const standing = await tx.visitTask.findFirst({
    where: { unitId: { in: unitIds }, open: true },
    include: { visit: { include: { kitchen: { include: { customer: { select: { name: true } } } } } }, task: { include: { unit: true } } },
  });
  if (standing) {
    const { visit, task } = standing;
    const day = dayIn(visit.startsAt, visit.kitchen.timeZone);
    throw new AppError(
      'conflict',
      `${task.unit.name} stands on a visit to ${fullKitchenName(visit.kitchen)} on ${day}. Cancel that visit or wait until it is closed.`,
    );
  }
  const tasks = await tx.task.findMany({ where: { unitId: { in: unitIds }, active: true }, select: { id: true } });
  await tx.task.updateMany({ where: { id: { in: tasks.map((t) => t.id) } }, data: { active: false, version: { increment: 1 } } });
  await tx.unit.updateMany({ where: { id: { in: unitIds } }, data: { archivedAt: now, archivedWhy: why, version: { increment: 1 } } });
  return { unitIds, taskIds: tasks.map((t) => t.id) };
}

/** What the last archiving of a record took out of use with it. */
export async function lastOffFile(tx: Tx, action: string, entityId: string): Promise<OffFile> {
  const entry = await tx.auditEntry.findFirst({ where: { action, entityId }, orderBy: { id: 'desc' } });
  const detail = STORED_AUDIT_DETAIL.readOrNull(entry?.detail) ?? {};
  return { kitchenIds: detail.kitchenIds ?? [], unitIds: detail.unitIds ?? [], taskIds: detail.taskIds ?? [] };
}

export async function putBack(tx: Tx, off: OffFile): Promise<void> {
  await tx.kitchen.updateMany({ where: { id: { in: off.kitchenIds } }, data: { archivedAt: null, version: { increment: 1 } } });
  await tx.unit.updateMany({ where: { id: { in: off.unitIds } }, data: { archivedAt: null, archivedWhy: '', version: { increment: 1 } } });
  await tx.task.updateMany({ where: { id: { in: off.taskIds } }, data: { active: true, version: { increment: 1 } } });
}
