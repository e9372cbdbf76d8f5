import 'server-only';
import { STORED_VISIT_EVENT } from '../../../database/stored/records';
import type { Tx } from '../../../database/client';
import { attempt } from '../../../database/savepoint';
import type { ServiceContext } from '../../context';
import { reviseRulesAfterVisit } from '../../intervals/verbs/revise-after-visit';

/**
 * Estimates of the visit's readings, then the rules. A failure here must not keep the technician's work out of the
 * office: it undoes only itself, is written on the visit and told.
 */
export async function takeConsequences(ctx: ServiceContext & { db: Tx }, visitId: string): Promise<string | null> {
  const error = await attempt(ctx.db, () => reviseRulesAfterVisit(ctx, visitId));
  if (error === null) return null;
  const why = error instanceof Error ? error.message : String(error);
  await ctx.db.visitEvent.create({
    data: { visitId, kind: 'not_revised', at: ctx.now, detail: STORED_VISIT_EVENT.write({ why: why.slice(0, 2000) }) },
  });
  return 'The estimates and rules could not be brought up to date. Open the visit and try again.';
}
