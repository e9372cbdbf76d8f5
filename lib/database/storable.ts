import 'server-only';

/** U+0000 and halves of surrogate pairs, which PostgreSQL stores in neither text nor jsonb. */
const UNSTORABLE = /\u0000|\p{Surrogate}/gu;

/** Deeper than any entry is. PostgreSQL's jsonb and every reader of it recurse, so what is nested without end is cut. */
const DEEPEST = 40;

/** Names that an object has by itself: the database client asks each object for its constructor, and trips where it has none. */
const OWN_NAMES: ReadonlySet<string> = new Set(['__proto__', 'constructor']);
const storableKey = (key: string) => (OWN_NAMES.has(key) ? `\uFFFD${key}` : storable(key));

/** The value with what no database can hold replaced by U+FFFD, so that one stray character holds up nothing. */
export function storable<T>(value: T, depth = 0): T {
  if (depth > DEEPEST && value !== null && typeof value === 'object') return '\uFFFD nested deeper than can be kept' as T;
  if (typeof value === 'string') return value.replace(UNSTORABLE, '\uFFFD') as T;
  if (Array.isArray(value)) return value.map((inner: unknown) => storable(inner, depth + 1)) as T;
  // A date, and the like, knows itself how it is written.
  if (value !== null && typeof value === 'object' && Object.getPrototypeOf(value) === Object.prototype)
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [storableKey(k), storable(v, depth + 1)])) as T;
  return value;
}
