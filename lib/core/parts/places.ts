export const PART_PLACES = ['van', 'shop'] as const;
/** Where the shop keeps a part. */
export type PartPlace = (typeof PART_PLACES)[number];
export const PART_PLACE_LABEL: Record<PartPlace, string> = { van: 'the van', shop: 'the shop' };

/** What lies in the vans: whose, where the list says so; the rest is in one, nobody said whose. */
export type InVans = { inVan: number; vans: readonly { technicianId: string; pieces: number }[] };
export const inVans = ({ inVan, vans }: InVans): number => vans.reduce((sum, v) => sum + v.pieces, inVan);

/** What a technician finds in the van, and takes from: their own, or else what lies in one that nobody said whose it is. */
export const inOwnVan = ({ inVan, vans }: InVans, technicianId: string): number =>
  vans.find((v) => v.technicianId === technicianId && v.pieces > 0)?.pieces ?? inVan;

/** A part of the shop's list as a tablet knows it; `inVan` is what its technician takes from. */
export type PartOnList = { id: string; number: string; name: string; inVan: number; inShop: number };

/** Where it is taken from where nobody said: what is in the van is at hand. */
export const likelyPlace = ({ inVan, inShop }: Pick<PartOnList, 'inVan' | 'inShop'>): PartPlace =>
  inVan > 0 || inShop === 0 ? 'van' : 'shop';

/** Whole pieces that leave the list: of one that was begun, all of it. */
export const piecesTaken = (quantity: number): number => Math.ceil(quantity - 1e-9);

const plain = (text: string) => text.toLowerCase().replace(/\s+/g, ' ').trim();

/** Parts whose number or name holds every word typed, the number's own beginning first. At most `limit`. */
export function partsLike<P extends Pick<PartOnList, 'number' | 'name'>>(parts: readonly P[], typed: string, limit = 4): P[] {
  const words = plain(typed).split(' ').filter(Boolean);
  if (words.length === 0 || plain(typed).length < 2) return [];
  const held = parts.filter((p) => words.every((w) => plain(`${p.number} ${p.name}`).includes(w)));
  const begins = (p: P) => (plain(p.number).startsWith(plain(typed)) ? 0 : 1);
  return [...held].sort((a, b) => begins(a) - begins(b)).slice(0, limit);
}
