import 'server-only';

/** U+0000 and halves of surrogate pairs, which PostgreSQL stores in neither text nor jsonb. */
const UNSTORABLE = /\u0000|\p{Surrogate}/gu;

/** The value with what no database can hold replaced by U+FFFD, so that one stray character holds up nothing. */
export function storable<T>(value: T): T {
  if (typeof value === 'string') return value.replace(UNSTORABLE, '\uFFFD') as T;
  if (Array.isArray(value)) return value.map(storable) as T;
  if (value !== null && typeof value === 'object')
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [storable(k), storable(v)])) as T;
  return value;
}
