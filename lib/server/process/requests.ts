import diagnostics from 'node:diagnostics_channel';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { answered } from './metrics';
import { inHand, newReference } from './in-hand';
import { log } from './log';

/** The header under which the handlers find who is connected. */
export const PEER = 'x-rimebook-peer';
/** The header under which a page finds its own address, which the framework does not tell it. */
export const ADDRESS = 'x-rimebook-address';
/** The header of an answer under which the reference of its request stands. */
export const REFERENCE = 'x-request-id';

// One listener in a process; a module that is read anew takes its place.
const held = globalThis as unknown as { rimebookWatch?: (message: unknown) => void };

const LONGEST_PART = 24;
/** An address as the log keeps it: without query, and without what could be a link's secret or say whose page it was. */
export const loggedPath = (address: string) =>
  (address.split('?')[0] ?? '')
    .split('/')
    .map((part) => (part.length > LONGEST_PART && !part.includes('.') ? '…' : part))
    .join('/')
    .slice(0, 200);

/** Without what the framework adds for itself when it asks for a page's parts. */
const pageAddress = (address: string) => address.replace(/([?&])_rsc=[^&]*&?/, '$1').replace(/[?&]$/, '');

/** Addresses that are asked for every few seconds, or are files that say nothing. */
const QUIET = /^\/(api\/(health|alive|metrics)|_next\/)/;

/**
 * For each request, before anybody handles it: who is at the other end of the socket, over whatever was sent under that
 * name; and a reference that its log lines, its answer and its error page carry. When it is answered, one line.
 */
export function watchRequests(): void {
  const listening = held.rimebookWatch !== undefined;
  held.rimebookWatch = (message) => {
    const { request, response } = message as { request: IncomingMessage; response: ServerResponse };
    const started = { reference: newReference() };
    const since = performance.now();
    request.headers[ADDRESS] = pageAddress(request.url ?? '/');
    request.headers[PEER] = request.socket.remoteAddress ?? '';
    response.setHeader(REFERENCE, started.reference);
    inHand.enterWith(started);
    response.once('close', () => {
      const ms = Math.round(performance.now() - since);
      const path = loggedPath(request.url ?? '');
      // Nothing was answered to somebody who went away first: 499, as web servers in front write it.
      const status = response.writableFinished ? response.statusCode : 499;
      answered(request.method ?? '', status, ms);
      if (!QUIET.test(path)) log.info({ ...started, method: request.method, path, status, ms }, 'answered');
    });
  };
  if (!listening) diagnostics.subscribe('http.server.request.start', (message) => held.rimebookWatch?.(message));
}
