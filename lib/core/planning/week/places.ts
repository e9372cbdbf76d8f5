import { travelMinutes } from '../travel';
import type { Place, Travel } from '../types';

/** Two places with no known way between them: longer than any shift, so that no route uses it. */
const NO_WAY = 1e6;

export interface PlaceTable {
  indexOf(place: Place): number;
  readonly count: number;
  /** Row-major whole minutes. */
  minutes(): Float64Array;
}

/** Numbers places, the same coordinates or matrix row only once. */
export function placeTable(travel: Travel): PlaceTable & { readonly list: readonly Place[] } {
  const list: Place[] = [];
  const index = new Map<string, number>();
  return {
    list,
    get count() {
      return list.length;
    },
    indexOf(place) {
      const key = `${place.matrixRow ?? ''}|${place.lat ?? ''}|${place.lng ?? ''}|${place.unknown?.id ?? ''}`;
      let at = index.get(key);
      if (at === undefined) {
        at = list.length;
        list.push(place);
        index.set(key, at);
      }
      return at;
    },
    minutes() {
      const n = list.length;
      const table = new Float64Array(n * n);
      for (let i = 0; i < n; i++)
        for (let j = 0; j < n; j++) if (i !== j) table[i * n + j] = travelMinutes(list[i]!, list[j]!, travel) ?? NO_WAY;
      return table;
    },
  };
}
