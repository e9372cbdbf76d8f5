import 'server-only';
import { AppError } from '../../../core/errors';
import { ENTRY_VERSION, upgraded, type Entry, type EntryKind } from '../../../core/tablet';
import { PAYLOADS, type EntryEnvelope } from '../../../schemas/tablet/entries';
import { entryFault } from './entry-fault';

/**
 * The entry in today's shape, whatever version of the tablet made it.
 * @throws AppError invalid — kept word for word for the office all the same.
 */
export function readEntry(envelope: EntryEnvelope): Entry {
  const schema = PAYLOADS[envelope.kind as EntryKind];
  if (!schema) throw new AppError('invalid', `The office does not know entries of the kind “${envelope.kind}”.`);
  const parsed = schema.safeParse(upgraded(envelope.kind as EntryKind, envelope.version, envelope.payload));
  if (!parsed.success) throw new AppError('invalid', entryFault(parsed.error.issues[0]));
  return { ...envelope, version: ENTRY_VERSION, payload: parsed.data } as Entry;
}
