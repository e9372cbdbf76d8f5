import 'server-only';
import { isAppError } from '../../../core/errors';
import { fieldOf } from '../../../core/typed/closed-set';
import { sqlStateOf } from '../../../database/sql-state';

/**
 * Whether trying again could never help: a rule of ours or of the database spoke, or the entry is one that the code
 * cannot work on, which must not hold up those behind it. Anything else, a lost connection for one, is tried again.
 */
export function isRefusal(error: unknown): boolean {
  if (isAppError(error) || isSlip(error)) return true;
  const sqlState = sqlStateOf(error);
  // SQLSTATE classes 22 (data exception) and 23 (integrity constraint violation), PostgreSQL appendix A.
  if (sqlState) return sqlState.startsWith('22') || sqlState.startsWith('23');
  const code = fieldOf(error, 'code');
  return typeof code === 'string' && ['P2000', 'P2002', 'P2003', 'P2004', 'P2011'].includes(code);
}

/** A defect of ours that this entry brings out: filed with the entry, and told to whoever watches the office. */
export function isSlip(error: unknown): boolean {
  return error instanceof TypeError || error instanceof RangeError || fieldOf(error, 'name') === 'PrismaClientValidationError';
}
