import type { KeptEntry } from '@/lib/tablet/database';

/** The office did not take it, or took it with a question, and nobody has read that yet. */
export const unread = (k: KeptEntry): boolean => !k.waiting && !k.seen && (k.outcome === 'rejected' || k.outcome === 'conflict');

export function countUnread(entries: ReadonlyMap<string, KeptEntry>): number {
  let count = 0;
  for (const k of entries.values()) if (unread(k)) count++;
  return count;
}
