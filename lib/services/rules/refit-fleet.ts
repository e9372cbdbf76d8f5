import 'server-only';
import type { ServiceContext } from '../context';

/** Fits the pooled prior to the whole fleet's history and brings every unit's posterior up to it. */
export async function refitFleet(_ctx: ServiceContext): Promise<{ units: number }> {
  throw new Error('not joined to the core yet');
}
