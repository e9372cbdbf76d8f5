import 'server-only';
import { todayIn } from '../../../core/calendar';
import type { Estimate } from '../../../core/condenser';
import { condenserUnitOf, conditionsOf, readingOf } from '../../../core/condenser/from-record';
import { AppError } from '../../../core/errors';
import { baselineFrom, estimateColumns, estimateReading, kitchenBeliefs, pastLosses } from '../../../core/evidence';
import { readingToEstimate, saveEstimate } from '../reads/estimates';
import { unitFiles, visitDate } from '../reads/findings-history';
import { fleetBelief, kitchenPosteriors, saveBelief } from '../reads/fouling';
import { withinTransaction } from '../../../database/transaction';
import type { ServiceContext } from '../../context';

/**
 * Computes the estimate of a reading from its unit, kitchen, clean baseline and the unit's earlier estimates,
 * and saves it in place of an earlier one of the same reading. A reading taken after a cleaning moves the
 * unit's clean baseline.
 * @throws AppError not_found
 */
export async function storeEstimate(ctx: Pick<ServiceContext, 'db'>, readingId: string): Promise<Estimate> {
  return withinTransaction(ctx.db, async (tx) => {
    const found = await readingToEstimate(tx, readingId);
    if (!found) throw new AppError('not_found', 'That reading is not on file.');
    const { reading, coilGrade, fanGrade } = found;
    const { kitchen } = reading.unit;
    const visitId = reading.visitId ?? undefined;
    const [file] = await unitFiles(tx, { unitIds: [reading.unitId] }, visitId);
    const shop = await tx.shopSettings.findUnique({ where: { id: 1 }, select: { currency: true } });
    const unit = condenserUnitOf(reading.unit, kitchen);
    const at = reading.at.getTime();
    const earlier = (file?.readings ?? []).filter((r) => r.at < at);
    const baseline = baselineFrom(unit, earlier);
    const on = reading.visit ? visitDate(reading.visit, kitchen.timeZone) : todayIn(kitchen.timeZone, at);
    // The cleaning of this very visit lies between its two readings: only the one after it starts afresh.
    const lastCleaning = reading.phase === 'after' ? on : ((file?.cleanings ?? []).filter((c) => c < on).at(-1) ?? null);
    const history = pastLosses(earlier, baseline, lastCleaning, at);
    const result = estimateReading(
      unit,
      readingOf(reading, { coilGrade, fanGrade }),
      baseline,
      conditionsOf(unit, kitchen, shop?.currency ?? 'USD'),
      history,
    );
    const { columns } = estimateColumns(result, baseline, { at, on, phase: reading.phase, fanFailed: fanGrade === 'failed' });
    await saveEstimate(tx, reading, columns, result);
    if (reading.phase === 'after') await keepBaseline(tx, reading.unitId, visitId);
    return result;
  });
}

/** Brings the unit's row up to its readings. The belief about its rate follows when the visit is closed. */
async function keepBaseline(tx: Parameters<typeof saveBelief>[0], unitId: string, visitId: string | undefined): Promise<void> {
  const [file] = await unitFiles(tx, { unitIds: [unitId] }, visitId);
  if (!file) return;
  const baseline = baselineFrom(file.unit, file.readings);
  const { count } = await tx.unitFouling.updateMany({ where: { unitId }, data: { baseline } });
  if (count > 0) return;
  const fleet = await fleetBelief(tx);
  const untouched = { ...file, findings: [], readings: [], cleanings: [], trips: [] };
  const [belief] = kitchenBeliefs([untouched], fleet, await kitchenPosteriors(tx, file.kitchenId, fleet.fouling.modelVersion));
  if (belief) await saveBelief(tx, { ...belief, evidence: { ...belief.evidence, baseline } });
}
