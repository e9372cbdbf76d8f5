import 'server-only';
import { auditBy } from '../../audit/verbs/write-audit';
import { nextDue, type Anchor, type LocalDate } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import type { RuleChangeKind } from '../../../core/intervals/changes';
import type { Tx } from '../../../database/client';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { differences, staleError } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';

type Kind = Exclude<RuleChangeKind, 'evidence' | 'held' | 'ended'>;
type Patch = Partial<{
  rule: string;
  anchor: Anchor;
  locked: boolean;
  minWeeks: number;
  maxWeeks: number;
  active: boolean;
  anchorDate: LocalDate;
}>;

/**
 * Changes a task and keeps the old rule with the reason. The due date follows from the new rule.
 * @throws AppError not_found | invalid — the rule has no date left | conflict — stale
 */
export async function recordChange(
  tx: Tx,
  { actor, now }: Omit<ServiceContext, 'db'>,
  change: { taskId: string; version?: number; kind: Kind; reason: string; patch: Patch },
): Promise<{ dueOn: LocalDate }> {
  const task = await tx.task.findUnique({ where: { id: change.taskId } });
  if (!task) throw new AppError('not_found', 'That task is not on file.');
  const { anchorDate, ...patch } = change.patch;
  const rule = patch.rule ?? task.rule;
  const from = anchorDate ?? toLocalDate(task.anchorDate);
  const due = nextDue({
    rule,
    anchor: patch.anchor ?? task.anchor,
    anchorDate: from,
    lastDoneOn: task.lastDoneOn && toLocalDate(task.lastDoneOn),
  });
  if (!due) throw new AppError('invalid', 'That rule has no date left to fall on.', 'ruleText');
  const { count } = await tx.task.updateMany({
    where: { id: task.id, version: change.version ?? task.version },
    data: { ...patch, anchorDate: fromLocalDate(from), dueOn: fromLocalDate(due), version: { increment: 1 } },
  });
  if (count === 0) throw await staleError(tx, 'Task', task.id, 'this task');
  await tx.ruleChange.create({
    data: {
      taskId: task.id,
      at: now,
      kind: change.kind,
      fromRule: task.rule,
      toRule: rule,
      fromDueOn: task.dueOn,
      toDueOn: fromLocalDate(due),
      reason: change.reason,
      byUserId: actor?.userId ?? null,
    },
  });
  await auditBy(
    tx,
    { actor, now },
    {
      action: `task.${change.kind}`,
      entity: 'Task',
      entityId: task.id,
      detail: { changed: differences({ ...task, anchorDate: toLocalDate(task.anchorDate) }, change.patch), reason: change.reason },
    },
  );
  return { dueOn: due };
}
