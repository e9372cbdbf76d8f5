import type { KeptOperation } from '@/lib/tablet/database';

/** The office did not take it, or took it with a question, and nobody has read that yet. */
export const unread = (k: KeptOperation): boolean => !k.waiting && !k.seen && (k.outcome === 'rejected' || k.outcome === 'conflict');

export function countUnread(operations: ReadonlyMap<string, KeptOperation>): number {
  let count = 0;
  for (const k of operations.values()) if (unread(k)) count++;
  return count;
}
