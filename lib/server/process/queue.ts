import 'server-only';
import PgBoss from 'pg-boss';
import { env } from './env';
import { log } from './log';

/** Work done off the request, on the same PostgreSQL: a job is only a nudge, the rows are the truth. */
export const QUEUES = ['mail', 'plan', 'refit', 'archive', 'figures', 'sums', 'places'] as const;
export type QueueName = (typeof QUEUES)[number];

const held = globalThis as unknown as { rimebookBoss?: Promise<PgBoss> };

export function queue(): Promise<PgBoss> {
  return (held.rimebookBoss ??= (async () => {
    const boss = new PgBoss({ connectionString: env().DATABASE_URL, max: 3 });
    boss.on('error', (err) => log.error({ err }, 'queue'));
    await boss.start();
    for (const name of QUEUES) await boss.createQueue(name);
    return boss;
  })());
}

/** Nudges a queue. A queue that is down must not fail the work already saved: the sweep finds it later. */
export async function nudge(name: QueueName, data: object = {}): Promise<void> {
  try {
    await (await queue()).send(name, data);
  } catch (err) {
    log.warn({ err, name }, 'queue not reached');
  }
}
