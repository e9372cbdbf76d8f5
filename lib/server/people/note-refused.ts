import 'server-only';
import { log } from '../process/log';
import { metrics } from '../process/metrics';
import { markOf } from './known-device';

/** A sign-in that was refused is counted and has its line in the log. Whose and from where only as marks: a log is no list of people. */
export function noteRefused(why: string, email: string, address: string): void {
  metrics().refused.inc({ why });
  log.warn({ event: 'sign_in_refused', why, account: markOf(email), from: markOf(address) }, 'sign-in');
}
