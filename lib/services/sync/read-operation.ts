import 'server-only';
import { AppError } from '../../core/errors';
import { OPERATION_VERSION, upgraded, type Operation, type OperationKind } from '../../core/round';
import { PAYLOADS, type OperationEnvelope } from '../../schemas/operations';

/**
 * The operation in today's shape, whatever version of the tablet made it.
 * @throws AppError invalid — kept word for word for the office all the same.
 */
export function readOperation(envelope: OperationEnvelope): Operation {
  const schema = PAYLOADS[envelope.kind as OperationKind];
  if (!schema) throw new AppError('invalid', `The office does not know entries of the kind “${envelope.kind}”.`);
  const parsed = schema.safeParse(upgraded(envelope.kind as OperationKind, envelope.version, envelope.payload));
  if (!parsed.success) {
    const first = parsed.error.issues[0];
    throw new AppError('invalid', `The entry cannot be read: ${first?.path.join('.') ?? ''} ${first?.message ?? ''}`.trim());
  }
  return { ...envelope, version: OPERATION_VERSION, payload: parsed.data } as Operation;
}
