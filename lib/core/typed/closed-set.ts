/**
 * What the compiler cannot see of plain objects and lists whose keys are a closed set. Each looks at the value, or holds by
 * how the record was declared: a record typed by a closed set has no keys beside it.
 */

/** Whether a value is a member of the set: `isOneOf(PLACEMENTS, text)`. */
export const isOneOf = <T>(members: readonly T[], value: unknown): value is T => members.some((m) => m === value);

/** Whether the record has this key of its own. */
export const isKeyOf = <T extends object>(record: T, key: PropertyKey): key is keyof T => Object.hasOwn(record, key);

/** A field of something that may be anything, an error for one; undefined where it has none. */
export const fieldOf = (of: unknown, key: string): unknown =>
  (typeof of === 'object' || typeof of === 'function') && of !== null ? Reflect.get(of, key) : undefined;

/** The word for a member, or the text as it came where it is none: `labelOf(UNIT_KIND_LABEL, 'reach_in')`. */
export const labelOf = (labels: Readonly<Record<string, string>>, key: string): string => (isKeyOf(labels, key) && labels[key]) || key;

/** The record's own keys, as they are declared. */
export const keysOf = <T extends object>(record: T): (keyof T & string)[] => Object.keys(record).filter((key) => isKeyOf(record, key));

/** Its keys with their values. */
export const entriesOf = <T extends object>(record: T): [keyof T & string, T[keyof T & string]][] =>
  keysOf(record).map((key) => [key, record[key]]);

/** A record with one value a member. */
export function recordOf<K extends string, V>(members: readonly K[], of: (member: K) => V): Record<K, V> {
  // Filled for each member, which is all that the type says.
  const record = {} as Record<K, V>;
  for (const member of members) record[member] = of(member);
  return record;
}
