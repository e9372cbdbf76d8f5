import 'server-only';
import { backlog, readiness } from '../../features/health/reads/readiness';
import { db, healthDb } from './db';
import { metrics } from './metrics';
import { isReadIn } from './read-in';

/** Whether the server is ready: what it answers from is, and what people open first is read in. */
export async function ready() {
  const { ready: can, ...parts } = await readiness(healthDb());
  return { ready: can && isReadIn(), ...parts, readIn: isReadIn() };
}

/** Everything measured, as Prometheus text; what waits is counted now. */
export async function numbers(): Promise<{ text: string; contentType: string }> {
  const { registry, waiting } = metrics();
  const { outbox, plans } = await backlog(db());
  waiting.reset();
  for (const { status, count } of outbox) waiting.set({ what: 'message', status }, count);
  for (const { status, count } of plans) waiting.set({ what: 'plan', status }, count);
  return { text: await registry.metrics(), contentType: registry.contentType };
}
