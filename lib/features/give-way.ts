import 'server-only';
import { constants, setPriority } from 'node:os';

/**
 * Called on a thread that reckons for seconds: where cores are short, whoever waits for an answer goes first. Linux counts the
 * priority by thread; elsewhere it is the whole process's, which stays as it is.
 */
export function giveWay(): void {
  if (process.platform === 'linux') setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
}
