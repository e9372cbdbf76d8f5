// The office as a process of its own that can be killed: the real route handlers behind a plain HTTP server.
import { createServer, type IncomingMessage } from 'node:http';
import { Readable } from 'node:stream';
import { GET as readFile } from '@/app/api/files/[id]/route';
import { GET as uploadState, PUT as takePiece } from '@/app/api/files/route';
import { POST as takeIn } from '@/app/api/sync/route';
import { GET as readRound } from '@/app/api/sync/round/route';
import { requests } from './next-headers';

type Handler = (request: Request, props: { params: Promise<Record<string, string>> }) => Promise<Response>;

function handlerFor(method: string, path: string): [Handler, Record<string, string>] | null {
  if (method === 'POST' && path === '/api/sync') return [takeIn, {}];
  if (method === 'GET' && path === '/api/sync/round') return [readRound, {}];
  if (method === 'GET' && path === '/api/files') return [uploadState, {}];
  if (method === 'PUT' && path === '/api/files') return [takePiece, {}];
  const id = /^\/api\/files\/([^/]+)$/.exec(path)?.[1];
  return method === 'GET' && id ? [readFile, { id }] : null;
}

function asRequest(incoming: IncomingMessage): Request {
  const headers = new Headers();
  for (const [name, value] of Object.entries(incoming.headers)) if (typeof value === 'string') headers.set(name, value);
  const body = incoming.method === 'GET' ? undefined : (Readable.toWeb(incoming) as ReadableStream<Uint8Array>);
  return new Request(`http://127.0.0.1${incoming.url}`, { method: incoming.method, headers, body, duplex: 'half' } as RequestInit);
}

const server = createServer((incoming, outgoing) => {
  void (async () => {
    const request = asRequest(incoming);
    const found = handlerFor(request.method, new URL(request.url).pathname);
    const reply = found
      ? await requests.run(request, () => found[0](request, { params: Promise.resolve(found[1]) }))
      : new Response('', { status: 404 });
    outgoing.writeHead(reply.status, Object.fromEntries(reply.headers));
    outgoing.end(Buffer.from(await reply.arrayBuffer()));
  })().catch(() => outgoing.destroy());
});
server.listen(Number(process.env.PORT), '127.0.0.1', () => console.log('ready'));
