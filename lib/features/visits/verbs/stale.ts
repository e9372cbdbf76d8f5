import 'server-only';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';

/** Says who changed a visit since it was read, so that nobody's work is lost. */
export async function staleVisitError(db: Tx, visitId: string): Promise<AppError> {
  const last = await db.visitEvent.findFirst({ where: { visitId }, orderBy: { at: 'desc' } });
  const who = last?.byUserId ? await db.user.findUnique({ where: { id: last.byUserId }, select: { name: true } }) : null;
  const what = last ? `${last.kind.replaceAll('_', ' ')}${last.reason ? ` (${last.reason})` : ''}` : 'changed';
  return new AppError(
    'conflict',
    `${who?.name ?? 'Someone'} changed this visit meanwhile: ${what}. Look at it again before you change it.`,
  );
}
