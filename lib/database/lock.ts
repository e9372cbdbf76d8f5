import 'server-only';
import { Prisma, type Tx } from './client';

const TABLES = {
  Customer: Prisma.sql`"Customer"`,
  Kitchen: Prisma.sql`"Kitchen"`,
  Unit: Prisma.sql`"Unit"`,
  Task: Prisma.sql`"Task"`,
  User: Prisma.sql`"User"`,
};

/** Holds a row until the transaction ends, so that what is read of it stays true. */
export async function lockRow(tx: Tx, table: keyof typeof TABLES, id: string): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM ${TABLES[table]} WHERE id = ${id}::uuid FOR UPDATE`;
}

/** Numbers of our advisory locks, held until the transaction ends. */
const ADVISORY = { setUp: 7_210_001, owners: 7_210_002, fleet: 7_210_003, travel: 7_210_004 };

export async function lockAll(tx: Tx, what: keyof typeof ADVISORY): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(${ADVISORY[what]}::bigint)`;
}

/** Whether the lock was free; it is then held until the transaction ends. */
export async function tryLockAll(tx: Tx, what: keyof typeof ADVISORY): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ got: boolean }[]>`SELECT pg_try_advisory_xact_lock(${ADVISORY[what]}::bigint) AS got`;
  return row?.got ?? false;
}
