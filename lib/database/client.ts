import 'server-only';
import { PrismaPg } from '@prisma/adapter-pg';
import { PrismaClient } from './generated/client';

export type Db = PrismaClient;
/** A client or an open transaction: data functions take either. */
export type Tx = Omit<PrismaClient, '$connect' | '$disconnect' | '$on' | '$transaction' | '$extends'>;
export { Prisma } from './generated/client';

/** A client of its own pool; the caller disconnects it. */
export function connect(url: string, poolSize = 10): Db {
  return new PrismaClient({ adapter: new PrismaPg({ connectionString: url, max: poolSize }) });
}
