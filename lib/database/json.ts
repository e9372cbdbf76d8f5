import 'server-only';
import { Prisma } from './client';
import type { Stored } from './stored/stored';

/** A JSON column takes SQL's NULL only by Prisma's own name for it. */
export const writeOrNull = <T>(stored: Stored<T>, value: T | null) => (value === null ? Prisma.DbNull : stored.write(value));
/** The same for what is held to a schema before it comes here. */
export const jsonOrNull = (value: object | null) => (value === null ? Prisma.DbNull : (value as Prisma.InputJsonObject));
