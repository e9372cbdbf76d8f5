import 'server-only';
import { env } from './env';

const started = Date.now();

/** The server's time; tests may set where it starts, it still runs. */
export function now(): Date {
  const from = env().RIMEBOOK_CLOCK;
  return from ? new Date(Date.parse(from) + (Date.now() - started)) : new Date();
}
