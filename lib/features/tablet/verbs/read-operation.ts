import 'server-only';
import { AppError } from '../../../core/errors';
import { OPERATION_VERSION, upgraded, type Operation, type OperationKind } from '../../../core/tablet';
import { PAYLOADS, type OperationEnvelope } from '../../../schemas/entries';
import { entryFault } from './entry-fault';

/**
 * The operation in today's shape, whatever version of the tablet made it.
 * @throws AppError invalid — kept word for word for the office all the same.
 */
export function readOperation(envelope: OperationEnvelope): Operation {
  const schema = PAYLOADS[envelope.kind as OperationKind];
  if (!schema) throw new AppError('invalid', `The office does not know entries of the kind “${envelope.kind}”.`);
  const parsed = schema.safeParse(upgraded(envelope.kind as OperationKind, envelope.version, envelope.payload));
  if (!parsed.success) throw new AppError('invalid', entryFault(parsed.error.issues[0]));
  return { ...envelope, version: OPERATION_VERSION, payload: parsed.data } as Operation;
}
