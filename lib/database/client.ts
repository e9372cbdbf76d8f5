import 'server-only';
import { PrismaPg } from '@prisma/adapter-pg';
import type { SqlDriverAdapter, Transaction } from '@prisma/driver-adapter-utils';
import { PrismaClient } from './generated/client';

export type Db = PrismaClient;
/** A client or an open transaction: data functions take either. */
export type Tx = Omit<PrismaClient, '$connect' | '$disconnect' | '$on' | '$transaction' | '$extends'>;
export { Prisma } from './generated/client';

/** A client of its own pool; the caller disconnects it. */
export function connect(url: string, poolSize = 10): Db {
  const factory = new PrismaPg({ connectionString: url, max: poolSize });
  return new PrismaClient({
    adapter: { provider: factory.provider, adapterName: factory.adapterName, connect: async () => takingTurns(await factory.connect()) },
  });
}

/** A transaction is one connection: what is asked at once inside one takes turns here, for pg is to stop queueing by itself. */
function takingTurns(adapter: SqlDriverAdapter): SqlDriverAdapter {
  const begin = adapter.startTransaction.bind(adapter);
  adapter.startTransaction = async (isolation) => inTurn(await begin(isolation));
  return adapter;
}

function inTurn(tx: Transaction): Transaction {
  let last: Promise<unknown> = Promise.resolve();
  const after = <R>(ask: () => Promise<R>): Promise<R> => {
    const mine = last.then(ask, ask);
    last = mine.catch(() => undefined);
    return mine;
  };
  const { queryRaw, executeRaw } = tx;
  tx.queryRaw = (query) => after(() => queryRaw.call(tx, query));
  tx.executeRaw = (query) => after(() => executeRaw.call(tx, query));
  return tx;
}
