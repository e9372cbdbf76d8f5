import 'server-only';
import { noteOpening } from '../features/reports/reads/report-link';
import { isAppError } from '../core/errors';
import { now } from './clock';
import { db } from './db';
import { throttle } from './throttle';

/** Whether this address has asked too often; a page then shows what it shows for any link that does not open. */
export const throttled = (kind: string, most: number): Promise<boolean> =>
  throttle(kind, most).then(
    () => false,
    (e: unknown) => {
      if (isAppError(e)) return true;
      throw e;
    },
  );

export const countOpening = (id: string) => noteOpening(db(), id, now());
