import { z } from 'zod';
import { text } from '../values/text';
import type { Candidate, Precision } from '../../core/position/candidates';
import { metresBetween } from '../../core/position/arrivals';

const MOST_LABEL = 300;
const degrees = (most: number) => z.coerce.number().min(-most).max(most);

/**
 * One place of the `search` answer that Nominatim defines (nominatim.org/release-docs/latest/api/Search, Output: formats
 * json and jsonv2). What is left out of it by a compatible service is taken as not said.
 */
const Place = z
  .object({
    lat: degrees(90),
    lon: degrees(180),
    display_name: text().default(''),
    place_rank: z.number().optional(),
    boundingbox: z.array(z.coerce.number()).length(4).optional(),
    address: z.record(z.string(), z.unknown()).optional(),
  })
  .transform((p): Candidate => {
    const number = p.address?.house_number;
    const [south, north, west, east] = p.boundingbox ?? [];
    const box = south !== undefined && north !== undefined && west !== undefined && east !== undefined;
    return {
      lat: p.lat,
      lng: p.lon,
      label: p.display_name.slice(0, MOST_LABEL),
      precision: precisionOf(p.place_rank, number !== undefined),
      houseNumber: typeof number === 'string' ? number.slice(0, 20) : '',
      withinM: box ? Math.round(metresBetween({ lat: south, lng: west }, { lat: north, lng: east }) / 2) : null,
    };
  });

/** Place ranks 26 and 27 are streets and paths, 28 and more houses and what stands in them (Nominatim, "Place Ranking"). */
function precisionOf(rank: number | undefined, numbered: boolean): Precision {
  if (numbered || (rank ?? 0) >= 28) return 'house';
  return (rank ?? 0) >= 26 ? 'street' : 'area';
}

const MOST_PLACES = 5;
export const Places = z.array(Place).transform((list) => list.slice(0, MOST_PLACES));
