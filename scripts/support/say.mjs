const began = Date.now();

/** @param {number} ms @returns {string} "840 ms", "12.3 s" or "2 min 5 s" */
export function duration(ms) {
  if (ms < 1000) return `${Math.round(ms)} ms`;
  if (ms < 60_000) return `${(ms / 1000).toFixed(1)} s`;
  const seconds = Math.round(ms / 1000);
  return `${Math.floor(seconds / 60)} min ${seconds % 60} s`;
}

/** Time since this program started. */
export const elapsed = () => duration(Date.now() - began);

/** An error whose message is for the person at the keyboard: printed without a stack. */
export class Plain extends Error {}

/**
 * Run one step, saying what begins and how long it took.
 * On a terminal a clock runs beside the name, so that a long step never looks stuck.
 * @template T
 * @param {string} name what is being done, in words
 * @param {(note: (text: string) => void) => Promise<T> | T} work may call note() to add to the closing line
 * @param {{ live?: boolean }} [options] `live: false` where another step runs at the same time
 * @returns {Promise<T>}
 */
export async function step(name, work, { live = process.stdout.isTTY } = {}) {
  const start = Date.now();
  let notes = '';
  const draw = () => process.stdout.write(`\r\x1b[K  … ${name} ${duration(Date.now() - start)}`);
  const clock = live ? setInterval(draw, 500) : undefined;
  if (live) draw();
  else console.log(`  … ${name}`);
  const close = (mark, text) => {
    clearInterval(clock);
    const time = duration(Date.now() - start);
    console.log(`${live ? '\r\x1b[K' : ''}  ${mark} ${text}${notes} (${time}; ${elapsed()} in all)`);
  };
  try {
    const result = await work((text) => (notes += ` · ${text}`));
    close('✓', name);
    return result;
  } catch (error) {
    close('✗', name);
    throw error;
  }
}

/** Print an error as a person can use it; the stack only where the error was not expected. */
export function complain(error) {
  if (error instanceof Plain) console.error(`\n${error.message}\n`);
  else console.error(error);
}
