import 'server-only';
import { STORED_COMPRESSOR_MAP } from '../../../database/stored/shop';
import { AppError } from '../../../core/errors';
import { writeOrNull } from '../../../database/json';
import { withinTransaction } from '../../../database/transaction';
import type { EditUnit } from '../../../schemas/equipment/equipment';
import { orSay, staleError, writeEdit } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { UNIT_REFUSALS } from './create-unit';

/** Rules stay as they are, whatever the placement becomes: they have evidence of their own. @throws AppError not_found | conflict */
export function editUnit({ db, actor, now }: ServiceContext, { id, version, tag, ...data }: EditUnit): Promise<void> {
  const work = withinTransaction(db, async (tx) => {
    const before = await tx.unit.findUnique({ where: { id } });
    if (!before) throw new AppError('not_found', 'That unit is not on file.');
    const after = { ...data, tag: tag ?? before.tag };
    const { count } = await tx.unit.updateMany({
      where: { id, version },
      data: { ...after, compressorMap: writeOrNull(STORED_COMPRESSOR_MAP, data.compressorMap), version: { increment: 1 } },
    });
    if (count === 0) throw await staleError(tx, 'Unit', id, 'this unit');
    await writeEdit(tx, { actor, now }, { action: 'unit.edited', entity: 'Unit', id }, before, after);
  });
  return orSay(work, UNIT_REFUSALS);
}
