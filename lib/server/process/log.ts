import 'server-only';
import pino from 'pino';
import { fieldOf } from '../../core/typed/closed-set';
import { reference } from './in-hand';

const ADDRESS = /[^\s@"'`<>]+@[^\s@"'`<>]+/g;

/** An error as the log keeps it. What people typed may stand in its words: addresses are masked, and of many lines the last remains, which says what is wrong. */
export function loggedError(error: Error): object {
  const plain = pino.stdSerializers.err(error);
  const line = (plain.message ?? '').trim().split('\n').at(-1) ?? '';
  return {
    type: plain.type,
    code: fieldOf(error, 'code'),
    message: line.replace(ADDRESS, '…@…').slice(0, 300),
    stack: (plain.stack ?? '')
      .split('\n')
      .filter((l) => /^\s+at /.test(l))
      .slice(0, 12)
      .join('\n'),
  };
}

/** One line of JSON each, with the reference of the request in hand. */
export const log = pino({
  level: process.env.LOG_LEVEL ?? 'info',
  base: undefined,
  mixin: () => ({ reference: reference() ?? undefined }),
  serializers: { err: loggedError },
});
