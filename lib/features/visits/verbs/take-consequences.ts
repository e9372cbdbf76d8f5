import 'server-only';
import type { VisitOnFile } from '../../../core/tablet';
import type { Tx } from '../../../database/client';
import { attempt } from '../../../database/savepoint';
import type { ServiceContext } from '../../context';
import { storeEstimate } from '../../evidence/verbs/store-estimate';
import { reviseRulesAfterVisit } from '../../intervals/verbs/revise-after-visit';

/**
 * Estimates of the visit's readings, cleaned-before first as they were taken, then the rules. A failure here must not
 * keep the technician's work out of the office: it undoes only itself, is written on the visit and told.
 */
export async function takeConsequences(
  ctx: ServiceContext & { db: Tx },
  visit: Pick<VisitOnFile, 'id' | 'entries'>,
): Promise<string | null> {
  const readings = [...visit.entries.readings].sort((a, b) => a.at.localeCompare(b.at) || (a.phase === 'before' ? -1 : 1));
  const error = await attempt(ctx.db, async () => {
    for (const r of readings) await storeEstimate(ctx, r.id);
    await reviseRulesAfterVisit(ctx, visit.id);
  });
  if (error === null) return null;
  const why = error instanceof Error ? error.message : String(error);
  await ctx.db.visitEvent.create({ data: { visitId: visit.id, kind: 'not_revised', at: ctx.now, detail: { why: why.slice(0, 2000) } } });
  return 'The estimates and rules could not be brought up to date. Open the visit and try again.';
}
