import { parentPort } from 'node:worker_threads';
import { followHabits, type Habits } from '../../core/measures/habits';
import { makePaper, type PaperAsked } from './paper-kinds';
import type { PaperSaid } from './on-thread';

// Papers, one after the other, on a thread of their own: each keeps one core busy for a while, and nobody else waits for it.
parentPort?.on('message', ({ asked, habits }: { asked: PaperAsked; habits: Habits }) => {
  // What the shop is used to is said to each process, and to each thread of it.
  followHabits(habits);
  makePaper(asked).then(
    (pdf) => parentPort?.postMessage({ pdf } satisfies PaperSaid, [pdf.buffer]),
    (e: unknown) => parentPort?.postMessage({ failed: e instanceof Error ? (e.stack ?? e.message) : String(e) } satisfies PaperSaid),
  );
});
