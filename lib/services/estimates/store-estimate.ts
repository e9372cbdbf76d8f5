import 'server-only';
import type { Estimate } from '../../core/condenser';
import type { ServiceContext } from '../context';

/**
 * Computes the estimate of a reading from its unit, kitchen, clean baseline and the unit's earlier estimates,
 * and saves it in place of an earlier one of the same reading. A reading taken after a cleaning moves the
 * unit's clean baseline.
 * @throws AppError not_found
 */
export async function storeEstimate(_ctx: ServiceContext, _readingId: string): Promise<Estimate> {
  throw new Error('not joined to the core yet');
}
