import type { LocalDate } from '../calendar';
import { PLACEMENTS, UNIT_KINDS, type Placement, type UnitKind } from '../equipment/build';
import { isId } from '../ids/is-id';
import { periodOf } from './period';

/** What the ranking of coils is narrowed by, as it stands in an address. */
export type FoulingFilter = {
  by: 'kitchen' | 'unit';
  customer?: string;
  kind?: UnitKind;
  place?: Placement;
  /** Looked at by this person, or in these days, or both. */
  who?: string;
  days?: { from: LocalDate; to: LocalDate };
};

/** Whatever is no customer, kind, place, person or date is left out. */
export function foulingFilter(query: Readonly<Record<string, string | undefined>>, today: LocalDate): FoulingFilter {
  const id = (text: string | undefined) => (isId(text ?? '') ? text : undefined);
  const kind = UNIT_KINDS.find((k) => k === query.kind);
  const place = PLACEMENTS.find((p) => p === query.place);
  const customer = id(query.customer);
  const who = id(query.who);
  return {
    by: query.by === 'unit' ? 'unit' : 'kitchen',
    ...(customer ? { customer } : {}),
    ...(kind ? { kind } : {}),
    ...(place ? { place } : {}),
    ...(who ? { who } : {}),
    ...(query.from || query.until ? { days: periodOf(query, today, 365) } : {}),
  };
}

/** The same as it stands in an address, for a link to the next page or to the file. */
export function filterAddress(query: Readonly<Record<string, string | undefined>>, more: Record<string, string> = {}): string {
  const kept = ['by', 'customer', 'kind', 'place', 'who', 'from', 'until'].flatMap((key) =>
    query[key] ? [[key, query[key]] as const] : [],
  );
  return new URLSearchParams([...kept, ...Object.entries(more)].map(([k, v]) => [k, v])).toString();
}
