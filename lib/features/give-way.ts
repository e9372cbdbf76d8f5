import 'server-only';
import { getPriority, setPriority } from 'node:os';

/** About half the weight of everybody else. Far behind, it would stop halfway through what locks the memory of all threads. */
const BEHIND = 3;

/**
 * Called on a thread that reckons for seconds: where cores are short, whoever waits for an answer goes first, but only by a little
 * (docs/decisions/2026-11-28-a-little-behind.md). Linux counts the priority by thread; elsewhere it is the whole process's, which stays as it is.
 */
export function giveWay(): void {
  if (process.platform === 'linux') setPriority(Math.min(19, getPriority() + BEHIND));
}
