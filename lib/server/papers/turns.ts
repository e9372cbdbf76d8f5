import 'server-only';
import { AppError } from '../../core/errors';

/**
 * One piece of work at a time, in the order in which they came.
 * @param most how many may wait beside the one at work @returns a function that gives work its turn @throws AppError busy beyond that
 */
export function turns(most: number) {
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;
  return async <R>(work: () => Promise<R>): Promise<R> => {
    if (waiting > most) throw new AppError('busy', 'Many papers are being made right now. Try again in a minute.');
    waiting++;
    const mine = last.then(work, work);
    last = mine.catch(() => undefined);
    try {
      return await mine;
    } finally {
      waiting--;
    }
  };
}
