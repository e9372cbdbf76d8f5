import { endChildren } from './run.mjs';
import { complain } from './say.mjs';

/** What has to be undone at the end, the last first; programs that still run are ended before all else. */
const closers = [];
let closing;

/** Have `work` done when the program ends, by itself or by Ctrl-C. */
export const atEnd = (work) => void closers.push(work);

/** Undo everything, once, then leave. */
export function close(code) {
  closing ??= (async () => {
    await endChildren();
    for (const work of closers.reverse()) await Promise.resolve(work()).catch(complain);
    process.exit(code);
  })();
  return closing;
}

/** Whether the end has begun: what fails now fails because of it. */
export const isClosing = () => closing !== undefined;

/**
 * End in order on Ctrl-C, on a polite kill and when the terminal goes; a second Ctrl-C does not wait.
 * @param {{ say?: () => void, code?: number }} [options] `code`: what to leave with
 */
export function closeOnSignals({ say = () => {}, code = 0 } = {}) {
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'])
    process.on(signal, () => {
      if (isClosing() && signal === 'SIGINT') process.exit(130);
      say();
      void close(code);
    });
}
