import 'server-only';
import { Worker } from 'node:worker_threads';
import { AppError } from '../../core/errors';
import { habits } from '../../core/measures/habits';
import { fieldOf } from '../../core/typed/closed-set';
import type { PaperAsked } from './paper-kinds';
import { turns } from './turns';

export type PaperSaid = { pdf: Uint8Array<ArrayBuffer>; failed?: undefined } | { pdf?: undefined; failed: string };

const MOST_WAITING = 20;
const MOST_MEMORY_MB = 768;
/** Of one paper; the largest that is promised takes ten seconds. */
const MOST_MS = 60_000;
/** Then the thread goes, and its memory with it. */
const IDLE_MS = 60_000;

let thread: Worker | undefined;
let idle: NodeJS.Timeout | undefined;
const inTurn = turns(MOST_WAITING);

function drop(one: Worker): void {
  void one.terminate();
  if (thread === one) thread = undefined;
}

function threadAtWork(): Worker {
  clearTimeout(idle);
  thread ??= new Worker(new URL('./paper-thread.ts', import.meta.url), { resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB } });
  // The request that waits keeps the server up, not this.
  thread.unref();
  return thread;
}

function make(asked: PaperAsked): Promise<Uint8Array<ArrayBuffer>> {
  return new Promise<Uint8Array<ArrayBuffer>>((resolve, reject) => {
    const at = threadAtWork();
    const tooMuch = new AppError('too_large', 'This paper is too large to make. Tell whoever keeps the server.');
    const gone = (why: unknown) => {
      clearTimeout(end);
      drop(at);
      reject(
        fieldOf(why, 'code') === 'ERR_WORKER_OUT_OF_MEMORY'
          ? tooMuch
          : why instanceof Error
            ? why
            : new Error('the thread of papers ended'),
      );
    };
    const end = setTimeout(() => gone(tooMuch), MOST_MS);
    at.once('error', gone);
    at.once('exit', gone);
    at.once('message', ({ pdf, failed }: PaperSaid) => {
      clearTimeout(end);
      at.off('error', gone).off('exit', gone);
      idle = setTimeout(() => drop(at), IDLE_MS).unref();
      if (pdf) resolve(pdf);
      else reject(new Error(`paper: ${failed}`));
    });
    at.postMessage({ asked, habits: habits() });
  });
}

/**
 * A paper as PDF, made on a thread, one at a time: whoever asks for something else is answered meanwhile.
 * @throws AppError busy where too many wait | too_large
 */
const paperOnThread = (asked: PaperAsked): Promise<Uint8Array<ArrayBuffer>> => inTurn(() => make(asked));

/** The same as a file that a browser shows. `name` is its name, without its ending. */
export const paperFile = async (asked: PaperAsked, name: string): Promise<Response> =>
  new Response(await paperOnThread(asked), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${name}.pdf"`,
      'cache-control': 'private, no-store',
    },
  });
