import diagnostics from 'node:diagnostics_channel';
import { get, IncomingMessage } from 'node:http';
import { fieldOf } from '../../core/typed/closed-set';
import { log } from './log';

const NONE = '00000000-0000-4000-8000-000000000000';
/** What people open first. Whoever is not signed in is shown nothing of it, and it is read in all the same. */
export const OPENED_FIRST = [
  '/sign-in',
  '/due',
  '/week',
  '/owner',
  '/customers',
  '/jobs',
  '/round',
  `/kitchens/${NONE}`,
  `/units/${NONE}`,
  `/visits/${NONE}`,
  `/visits/${NONE}/report/pdf`,
  `/customers/${NONE}/quarter/pdf`,
  '/api/sync/round',
  '/api/find',
] as const;
const PATIENCE_MS = 10_000;

// The framework bundles this file more than once; whether the pages are read in is one.
const note = (rimebookReadIn: boolean) => void Object.assign(globalThis, { rimebookReadIn });

/** Whether what people open first has been read in: until then the server says that it is not ready. */
export const isReadIn = (): boolean => fieldOf(globalThis, 'rimebookReadIn') !== false;

/** Whatever the answer is, or if there is none. */
const asked = (host: string, port: number, path: string) =>
  new Promise<void>((done) => {
    const request = get({ host, port, path, agent: false, timeout: PATIENCE_MS }, (answer) => void answer.resume().once('close', done));
    request.once('timeout', () => request.destroy()).once('error', () => done());
  });

/**
 * The framework reads a page in when it is asked for the first time, which holds up everybody for some tenths of a second. So the first request,
 * usually one that asks whether the server is well, makes it open each by itself, and only then is it ready. @returns ends the waiting for it
 */
export function readInAtFirst(paths: readonly string[] = OPENED_FIRST): () => void {
  note(false);
  const all = async ({ socket: { localAddress, localPort } }: IncomingMessage) => {
    const since = performance.now();
    if (localAddress && localPort) for (const path of paths) await asked(localAddress, localPort, path);
    note(true);
    log.info({ pages: paths.length, ms: Math.round(performance.now() - since) }, 'read in');
  };
  const begin = (message: unknown) => {
    const request = fieldOf(message, 'request');
    if (!(request instanceof IncomingMessage)) return;
    end();
    void all(request);
  };
  const end = () => void diagnostics.unsubscribe('http.server.request.start', begin);
  diagnostics.subscribe('http.server.request.start', begin);
  return end;
}
