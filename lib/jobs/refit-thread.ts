import { parentPort, workerData } from 'node:worker_threads';
import { connect } from '../database/client';
import { refitStep, type RefitStep } from '../features/intervals/verbs/refit-step';
import { giveWay } from '../features/give-way';

// Steps of the weekly refit, on a thread of its own: it keeps one core busy for minutes.
giveWay();
const { url, atOnce } = workerData as { url: string; atOnce: number };
const db = connect(url, atOnce);

parentPort?.on('message', ({ id, step }: { id: number; step: RefitStep }) => {
  refitStep(db, step).then(
    (done) => parentPort?.postMessage({ id, done }),
    (e: unknown) => parentPort?.postMessage({ id, failed: e instanceof Error ? (e.stack ?? e.message) : String(e) }),
  );
});
