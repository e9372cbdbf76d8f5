import 'server-only';
import type { DistanceUnit } from '../../../core/measures/region';
import type { Position } from '../../../core/position';
import type { Tx } from '../../../database/client';
import { shopDistance, shopPosition } from '../../shop/reads/shop';
import { kitchenPoints } from '../reads/positions';

const MOST = 2000;
type Around = { shop: Position | null; kitchens: (Position & { id: string; name: string })[]; distance: DistanceUnit };

/** The shop and its kitchens by position, at most 2,000, and how distances are read. */
export async function placesAround({ db }: { db: Tx }): Promise<Around> {
  const [shop, kitchens, distance] = await Promise.all([shopPosition(db), kitchenPoints(db, MOST), shopDistance(db)]);
  return { shop, kitchens, distance };
}
