import 'server-only';
import { backlog, readiness } from '../../features/health/reads/readiness';
import { db, healthDb } from './db';
import { metrics } from './metrics';

export const ready = () => readiness(healthDb());

/** Everything measured, as Prometheus text; what waits is counted now. */
export async function numbers(): Promise<{ text: string; contentType: string }> {
  const { registry, waiting } = metrics();
  const { outbox, plans } = await backlog(db());
  waiting.reset();
  for (const { status, count } of outbox) waiting.set({ what: 'message', status }, count);
  for (const { status, count } of plans) waiting.set({ what: 'plan', status }, count);
  return { text: await registry.metrics(), contentType: registry.contentType };
}
