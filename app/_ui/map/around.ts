import type { DistanceUnit } from '@/lib/core/measures/region';
import type { Position } from '@/lib/core/position';

/** What `/api/places` answers. */
export type Around = {
  tiles: { url: string; attribution: string; link: string | null } | null;
  shop: Position | null;
  kitchens: (Position & { id: string; name: string })[];
  distance: DistanceUnit;
};

let asked: Promise<Around> | null = null;

/** Asked once a page, when its first map opens; anew after a failure. */
export function askAround(): Promise<Around> {
  asked ??= fetch('/api/places').then((reply) => {
    if (!reply.ok) throw new Error(`places: ${reply.status}`);
    return reply.json() as Promise<Around>;
  });
  asked.catch(() => (asked = null));
  return asked;
}

export const NOWHERE: Around = { tiles: null, shop: null, kitchens: [], distance: 'km' };
