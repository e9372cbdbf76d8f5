import 'server-only';
import { AppError } from '../../../core/errors';
import { STORED_PROPOSAL } from '../../../database/stored/planning';
import type { Db } from '../../../database/client';
import { toLocalDate } from '../../../core/calendar/date-column';

/** How a search stands. @throws AppError not_found */
export async function readPlan({ db }: { db: Db }, runId: string) {
  const run = await db.planRun.findUnique({ where: { id: runId } });
  if (!run) throw new AppError('not_found', 'That proposal is not on file.');
  return {
    id: run.id,
    status: run.status,
    error: run.error,
    monday: toLocalDate(run.weekStart),
    proposal: STORED_PROPOSAL.readOrNull(run.result),
  };
}
