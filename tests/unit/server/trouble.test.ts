import { describe, expect, it } from 'vitest';
import { isAway, isBusy, isFull } from '@/lib/database/transaction';

/** As Prisma hands on what PostgreSQL said. */
const said = (originalCode: string) =>
  Object.assign(new Error('failed'), { code: 'P2039', meta: { driverAdapterError: { cause: { originalCode } } } });

describe('what the database says of itself', () => {
  it.each([
    ['no room on its disk', said('53100'), 'full'],
    ['no room on its disk, by the system’s words', new Error('could not extend file: No space left on device'), 'full'],
    ['it stops', said('57P01'), 'away'],
    ['it starts', said('57P03'), 'away'],
    ['a connection that broke', said('08006'), 'away'],
    ['a connection that broke under a question', new Error('Connection terminated unexpectedly'), 'away'],
    ['a connection that is no more', new Error('Client has encountered a connection error and is not queryable'), 'away'],
    ['a connection that was closed', new Error('ConnectionClosed'), 'away'],
    ['nobody there', Object.assign(new Error('connect'), { code: 'ECONNREFUSED' }), 'away'],
    ['no connection to spare', Object.assign(new Error('x'), { code: 'P2024' }), 'busy'],
    ['a rule that was broken', said('23505'), 'none'],
    ['a slip of ours that tells of connections', new Error('no ConnectionClosed handler'), 'none'],
    ['a slip of ours', new TypeError('x is undefined'), 'none'],
  ])('%s', (_, error, kind) => {
    const kinds = [isFull(error) && 'full', isAway(error) && 'away', isBusy(error) && 'busy'].filter(Boolean);
    expect(kinds).toEqual(kind === 'none' ? [] : [kind]);
  });
});
