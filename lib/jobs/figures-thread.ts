import { parentPort, workerData } from 'node:worker_threads';
import { connect } from '../database/client';
import { workOutReplay } from '../features/owner/verbs/work-out-replay';
import { workOutWorth } from '../features/owner/verbs/work-out-worth';
import { giveWay } from '../features/give-way';

// The owner's figures of the night, on a thread of their own: every coil's year is gone through again, which keeps one core busy.
giveWay();
const { url, now }: { url: string; now: Date } = workerData;
const db = connect(url, 1);
try {
  await workOutWorth({ db, now });
  await workOutReplay({ db, now });
  parentPort?.postMessage('done');
} finally {
  await db.$disconnect();
}
