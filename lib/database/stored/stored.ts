import { z } from 'zod';
import type { Prisma } from '../client';
import { storable } from '../storable';

/** What lies in a Json column does not have the shape it should have. Unexpected: it reaches the log, nobody's screen. */
export class StoredJsonError extends Error {
  constructor(what: string, why: string) {
    super(`Stored ${what} cannot be read: ${why}`);
    this.name = 'StoredJsonError';
  }
}

/** The one way into and out of a Json column. */
export type Stored<T> = {
  name: string;
  version: number;
  /** @throws StoredJsonError */
  read: (json: unknown) => T;
  /** Null where the column is. @throws StoredJsonError */
  readOrNull: (json: unknown) => T | null;
  write: (value: T) => Prisma.InputJsonObject;
};

/** From one version to the next. What was stored before there were versions is 0, and is read as 1 unless `up[0]` says how. */
type Up = Record<number, (json: unknown) => unknown>;
const SAME = (json: unknown) => json;

/** A way up in which only keys were renamed, at whatever depth they stand: each as it was and as it is. */
export function renamed(...pairs: readonly (readonly [was: string, is: string])[]): (json: unknown) => unknown {
  const names = new Map(pairs);
  const up = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(up);
    return isObject(value) ? Object.fromEntries(Object.entries(value).map(([key, x]) => [names.get(key) ?? key, up(x)])) : value;
  };
  return up;
}

const isObject = (json: unknown): json is Record<string, unknown> => typeof json === 'object' && json !== null && !Array.isArray(json);

function reader<T>(name: string, version: number, schema: z.ZodType<T>, up: Up, unpacked: (json: Record<string, unknown>) => unknown) {
  return (json: unknown): T => {
    const found = isObject(json) && typeof json.v === 'number' ? json.v : 0;
    if (found > version) throw new StoredJsonError(name, `version ${found} is newer than this program, which knows ${version}`);
    let value = isObject(json) && found > 0 ? unpacked(json) : json;
    for (let v = found; v < version; v++) value = (up[v] ?? SAME)(value);
    const parsed = schema.safeParse(value);
    if (parsed.success) return parsed.data;
    const [issue] = parsed.error.issues;
    throw new StoredJsonError(`${name} (version ${found})`, `${issue?.path.join('.') || 'all of it'}: ${issue?.message ?? 'unknown'}`);
  };
}

function kept<T>(name: string, version: number, read: (json: unknown) => T, pack: (value: T) => object): Stored<T> {
  return {
    name,
    version,
    read,
    readOrNull: (json) => (json === null || json === undefined ? null : read(json)),
    // Prisma's type asks for an index signature, which plain object types have none of.
    write: (value) => storable(pack(value)) as Prisma.InputJsonObject,
  };
}

/**
 * A Json column that holds an object: kept flat, with its version as `v` beside its own keys, so that SQL may look into it.
 * Whoever changes the shape raises the version and writes the way up from the one before. `pack`: how it is laid down, where that differs;
 * `schema` reads it back.
 */
export function stored<T extends object>(
  name: string,
  version: number,
  schema: z.ZodType<T>,
  up: Up = {},
  pack: (value: T) => object = (value) => value,
): Stored<T> {
  return kept(name, version, reader(name, version, schema, up, ({ v: _, ...rest }) => rest), (value) => ({ ...pack(value), v: version })); // prettier-ignore
}

/** A Json column that holds a list: kept as `{ v, list }`. */
export function storedList<T>(name: string, version: number, item: z.ZodType<T>, up: Up = {}): Stored<readonly T[]> {
  return kept(name, version, reader<readonly T[]>(name, version, z.array(item), up, ({ list }) => list), (list) => ({ v: version, list })); // prettier-ignore
}
