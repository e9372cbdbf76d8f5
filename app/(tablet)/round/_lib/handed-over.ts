import type { Handover } from '@/lib/tablet/handover';
import type { Snapshot } from '@/lib/tablet/snapshot';

/** What a saved file holds, by id: numbers of entries may be given anew. */
type HandedOver = { entries: ReadonlySet<string>; pictures: ReadonlySet<string> };
export const NOTHING_HANDED_OVER: HandedOver = { entries: new Set(), pictures: new Set() };

export const handedOverIn = (file: Pick<Handover, 'entries' | 'photos'>): HandedOver => ({
  entries: new Set(file.entries.map((entry) => entry.id)),
  pictures: new Set(file.photos.map((p) => p.id)),
});

/** Entries and pictures that are neither in the office nor in the file. */
export function onlyHere(s: Pick<Snapshot, 'entries' | 'photos'>, file: HandedOver): { entries: number; pictures: number } {
  return {
    entries: [...s.entries.values()].filter((k) => k.waiting && !file.entries.has(k.id)).length,
    pictures: s.photos.filter((p) => !file.pictures.has(p.id)).length,
  };
}
