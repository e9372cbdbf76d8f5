import diagnostics from 'node:diagnostics_channel';
import type { IncomingMessage } from 'node:http';

/** The header under which the handlers find who is connected. */
export const PEER = 'x-rimebook-peer';

let watching = false;
/** Writes the address at the other end of the socket into each request before anybody handles it, over whatever was sent under that name. */
export function watchPeers(): void {
  if (watching) return;
  watching = true;
  diagnostics.subscribe('http.server.request.start', (message) => {
    const { request } = message as { request: IncomingMessage };
    request.headers[PEER] = request.socket.remoteAddress ?? '';
  });
}
