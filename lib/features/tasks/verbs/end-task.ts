import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { ENDED } from '../../../core/evidence';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { saveChange } from '../../intervals/verbs/save-change';
import type { Tx } from '../../../database/client';

/** Where a task's last date was done, and by whose word it is put on file. */
export type DoneThere = { visitId: string; by: string | null; now: Date };

/** A task whose rule has no date left comes due no more; its history stays for when it is added again. */
export async function endTask(
  tx: Tx,
  task: { id: string; rule: string; dueOn: LocalDate; lastDoneOn: LocalDate },
  { visitId, by, now }: DoneThere,
): Promise<void> {
  await tx.task.update({
    where: { id: task.id },
    data: { active: false, lastDoneOn: fromLocalDate(task.lastDoneOn), version: { increment: 1 } },
  });
  await saveChange(tx, {
    taskId: task.id, at: now, kind: 'ended', fromRule: task.rule, toRule: task.rule, fromDueOn: task.dueOn, toDueOn: null, reason: ENDED,
    evidence: {}, modelVersion: '', byUserId: by, visitId,
  }); // prettier-ignore
}
