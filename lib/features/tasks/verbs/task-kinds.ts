import 'server-only';
import { AppError } from '../../../core/errors';
import { writeEdit } from '../../audit/verbs/changes';
import { auditBy } from '../../audit/verbs/write-audit';
import { withinTransaction } from '../../../database/transaction';
import type { EditTaskKind, NewTaskKind } from '../../../schemas/visits/tasks';
import type { ServiceContext } from '../../context';

const keyOf = (label: string) =>
  label
    .normalize('NFKD')
    .replace(/[^\w\s-]/g, '')
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_')
    .slice(0, 40);

/** A kind of task of the shop's own. @throws AppError invalid | conflict — the name is taken. */
export function addTaskKind({ db, actor, now }: ServiceContext, input: NewTaskKind): Promise<{ key: string }> {
  return withinTransaction(db, async (tx) => {
    const key = keyOf(input.label);
    if (key.length < 3) throw new AppError('invalid', 'Use letters in the name.', 'label');
    if (await tx.taskKind.findUnique({ where: { key } }))
      throw new AppError('conflict', 'A kind of this name is on file already.', 'label');
    const last = await tx.taskKind.aggregate({ _max: { sort: true } });
    await tx.taskKind.create({ data: { ...input, key, sort: (last._max.sort ?? 0) + 1 } });
    await auditBy(tx, { actor, now }, { action: 'task_kind.added', entity: 'TaskKind', entityId: key });
    return { key };
  });
}

/** Units keep the tasks they have; a kind no longer active is not offered to more. @throws AppError not_found */
export function editTaskKind({ db, actor, now }: ServiceContext, { key, ...data }: EditTaskKind): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const before = await tx.taskKind.findUnique({ where: { key } });
    if (!before) throw new AppError('not_found', 'That kind of task is not on file.');
    await tx.taskKind.update({ where: { key }, data });
    await writeEdit(tx, { actor, now }, { action: 'task_kind.edited', entity: 'TaskKind', id: key }, before, data);
  });
}
