import 'server-only';
import { AppError } from '../../../core/errors';
import type { ApplyContext } from './context';

/** The unit an entry is about: it must stand in the visit's kitchen. One archived meanwhile is noted, not refused. */
export async function unitOnVisit(ctx: ApplyContext, unitId: string): Promise<{ id: string; name: string }> {
  const unit = await ctx.unit(unitId);
  if (!unit) throw new AppError('not_found', 'That unit is not on file.');
  if (unit.kitchenId !== ctx.visit.kitchenId) throw new AppError('invalid', `${unit.name} is on file at another kitchen now.`);
  if (unit.archivedAt) ctx.chore(`${unit.name} was taken out of use by the office; what was written about it is kept.`);
  return unit;
}
