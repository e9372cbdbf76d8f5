import 'server-only';
import { Prisma } from './client';

/** A JSON column takes SQL's NULL only by Prisma's own name for it. */
export const jsonOrNull = (value: object | null) => (value === null ? Prisma.DbNull : (value as Prisma.InputJsonObject));
