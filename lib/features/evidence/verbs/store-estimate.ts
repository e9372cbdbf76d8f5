import 'server-only';
import { STORED_BASELINE } from '../../../database/stored/estimate';
import { todayIn } from '../../../core/calendar';
import type { Estimate } from '../../../core/condenser';
import { AppError } from '../../../core/errors';
import { baselineFrom, estimateOnFile, kitchenBeliefs } from '../../../core/evidence';
import { readingToEstimate } from '../reads/estimates';
import { saveEstimate } from './save-estimate';
import { unitFiles, visitDate } from '../reads/findings-history';
import { fleetBelief, kitchenMessages } from '../reads/fouling';
import { saveBelief } from './save-belief';
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
    const { reading, seen } = found;
    const { kitchen } = reading.unit;
    const visitId = reading.visitId ?? undefined;
    const [file] = await unitFiles(tx, { unitIds: [reading.unitId] }, { withVisit: visitId, evenArchived: [reading.unitId] });
    if (!file) throw new AppError('not_found', 'The unit of that reading is not on file.');
    const at = reading.at.getTime();
    const on = reading.visit ? visitDate(reading.visit, kitchen.timeZone) : todayIn(kitchen.timeZone, at);
    const { unitId, phase } = reading;
    const { columns, result } = estimateOnFile(file, { readingId, unitId, at, phase, record: reading, seen }, on);
    await saveEstimate(tx, reading, columns, result);
    if (phase === 'after') await keepBaseline(tx, unitId, visitId);
    return result;
  });
}

/** Brings the unit's row up to its readings. The belief about its rate follows when the visit is closed. */
async function keepBaseline(tx: Parameters<typeof saveBelief>[0], unitId: string, visitId: string | undefined): Promise<void> {
  const [file] = await unitFiles(tx, { unitIds: [unitId] }, { withVisit: visitId });
  if (!file) return;
  const baseline = baselineFrom(file.unit, file.readings);
  const { count } = await tx.unitFouling.updateMany({ where: { unitId }, data: { baseline: STORED_BASELINE.write(baseline) } });
  if (count > 0) return;
  const fleet = await fleetBelief(tx);
  const untouched = { ...file, findings: [], readings: [], cleanings: [], trips: [], washed: [], changes: [] };
  const [belief] = kitchenBeliefs([untouched], fleet, await kitchenMessages(tx, file.kitchenId, fleet.fouling.modelVersion));
  if (belief) await saveBelief(tx, { ...belief, evidence: { ...belief.evidence, baseline } });
}
