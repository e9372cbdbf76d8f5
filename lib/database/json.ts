import 'server-only';
import { Prisma } from './client';
import type { Stored } from './stored/stored';

/** A JSON column takes SQL's NULL only by Prisma's own name for it. */
export const writeOrNull = <T>(stored: Stored<T>, value: T | null) => (value === null ? Prisma.DbNull : stored.write(value));
