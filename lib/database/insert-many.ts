import 'server-only';
import { Prisma, type Tx } from './client';

const TABLES = { Customer: 'Customer', Kitchen: 'Kitchen', Unit: 'Unit', Task: 'Task' } as const;

/**
 * Inserts rows that all have the same keys, in one statement with one parameter: about ten times as fast as `createMany`
 * for thousands of rows. Keys are column names; columns not named take the database's own defaults, not the client's.
 */
export async function insertMany(tx: Tx, table: keyof typeof TABLES, rows: readonly Record<string, unknown>[]): Promise<void> {
  const first = rows[0];
  if (!first) return;
  const keys = Object.keys(first);
  if (!keys.every((k) => /^\w+$/.test(k))) throw new Error(`not column names: ${keys.join(', ')}`);
  const columns = Prisma.raw(keys.map((k) => `"${k}"`).join(', '));
  const name = Prisma.raw(`"${TABLES[table]}"`);
  await tx.$executeRaw`INSERT INTO ${name} (${columns}) SELECT ${columns} FROM jsonb_populate_recordset(null::${name}, ${JSON.stringify(rows)}::jsonb)`;
}
