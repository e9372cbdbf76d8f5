import { parentPort, workerData } from 'node:worker_threads';
import { connect } from '../database/client';
import { refitStep, type RefitStep } from '../features/intervals/verbs/refit-step';
import { giveWay } from '../features/give-way';

// Steps of the weekly refit, on a thread of its own: it keeps one core busy for minutes.
giveWay();
const { url } = workerData as { url: string };
const db = connect(url, 1);

parentPort?.on('message', (step: RefitStep) => {
  refitStep(db, step).then(
    (done) => parentPort?.postMessage({ done }),
    (e: unknown) => parentPort?.postMessage({ failed: e instanceof Error ? (e.stack ?? e.message) : String(e) }),
  );
});
