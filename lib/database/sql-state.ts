import 'server-only';
import { fieldOf } from '../core/typed/closed-set';

/** PostgreSQL's five letters for what went wrong (its manual, appendix A), out of what Prisma wraps around it; null where it said none. */
export function sqlStateOf(error: unknown): string | null {
  for (let e: unknown = error, depth = 0; e && depth < 5; depth++) {
    const originalCode = fieldOf(e, 'originalCode');
    if (typeof originalCode === 'string' && /^[0-9A-Z]{5}$/.test(originalCode)) return originalCode;
    e = fieldOf(fieldOf(e, 'meta'), 'driverAdapterError') ?? fieldOf(e, 'cause');
  }
  return null;
}
