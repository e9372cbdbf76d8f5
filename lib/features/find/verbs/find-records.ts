import 'server-only';
import type { Tx } from '../../../database/client';
import { findRecords, type Hit } from '../reads/find';
import { nearestKitchens, type NearKitchen } from '../reads/nearest';

/** What is on file under what was typed; where nothing is, the kitchens that come nearest. */
export async function find({ db }: { db: Tx }, typed: string): Promise<{ hits: Hit[]; near: boolean }> {
  const hits = await findRecords(db, typed);
  if (hits.length > 0) return { hits, near: false };
  const kitchens = await nearestKitchens(db, typed);
  const about = (k: NearKitchen) => [k.customer, k.address, k.phone].filter(Boolean).join(', ');
  return {
    hits: kitchens.map((k) => ({ href: `/kitchens/${k.id}`, kind: 'kitchen', name: k.name, about: about(k) })),
    near: kitchens.length > 0,
  };
}
