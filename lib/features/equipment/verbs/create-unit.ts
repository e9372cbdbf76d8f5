import 'server-only';
import { STORED_COMPRESSOR_MAP } from '../../../database/stored/shop';
import { randomUUID } from 'node:crypto';
import { blankUnit, type UnitSent } from '../../../core/equipment/unit-fields';
import { AppError } from '../../../core/errors';
import { auditBy } from '../../audit/verbs/write-audit';
import { writeOrNull } from '../../../database/json';
import { withinTransaction } from '../../../database/transaction';
import type { NewUnit } from '../../../schemas/equipment/equipment';
import { orSay } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { ensureDefaultTasks, type TaskIds } from '../../tasks/verbs/ensure-default-tasks';
import { freeTag } from './free-tag';

export const UNIT_REFUSALS = {
  unit_name_in_kitchen: ['This kitchen has a unit of this name already. Name them apart, for instance by where they stand.', 'name'],
  Unit_tag_key: ['Another unit has this tag, perhaps an archived one. A tag belongs to one unit.', 'tag'],
} as const;

/** What must be said of it, and what is known of the rest; `id` where it was given out before, as by a tablet that was offline. */
export type UnitToCreate = UnitSent &
  Partial<Pick<NewUnit, 'tag' | 'compressorMap' | 'lastCleanedOn' | 'firstDueOn'>> & {
    kitchenId: string;
    id?: string;
    /** Of its usual tasks, likewise given out before. */
    taskIds?: TaskIds;
    /** The unit in whose place it stands. */
    replacesId?: string | null;
  };

/**
 * Puts a unit on file with its tag and the tasks usual for its kind.
 * @throws AppError not_found | conflict — the kitchen is archived, or the name or tag is taken.
 */
export function createUnit(
  { db, actor, now }: ServiceContext,
  input: UnitToCreate,
): Promise<{ unitId: string; tag: string; taskIds: string[] }> {
  const { lastCleanedOn, firstDueOn, tag: givenTag, compressorMap, id: unitId = randomUUID(), taskIds: givenIds, ...data } = input;
  const work = withinTransaction(db, async (tx) => {
    const kitchen = await tx.kitchen.findUnique({ where: { id: data.kitchenId }, select: { archivedAt: true } });
    if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.');
    if (kitchen.archivedAt) throw new AppError('conflict', 'That kitchen is out of use. Put it back in use first.');
    const tag = givenTag ?? (await freeTag(tx, unitId));
    await tx.unit.create({
      data: {
        ...blankUnit(data.kind),
        ...data,
        id: unitId,
        tag,
        compressorMap: writeOrNull(STORED_COMPRESSOR_MAP, compressorMap ?? null),
        createdAt: now,
      },
    });
    await auditBy(tx, { actor, now }, { action: 'unit.created', entity: 'Unit', entityId: unitId });
    const taskIds = await ensureDefaultTasks({ db: tx, actor, now }, unitId, { lastCleanedOn, firstDueOn }, givenIds);
    return { unitId, tag, taskIds };
  });
  return orSay(work, UNIT_REFUSALS);
}
