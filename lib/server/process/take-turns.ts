import { AsyncResource } from 'node:async_hooks';
import diagnostics from 'node:diagnostics_channel';
import { IncomingMessage, Server, ServerResponse } from 'node:http';
import { fieldOf } from '../../core/typed/closed-set';

export type Bounds = {
  /** So many are worked on at once. A hundred at once would each be answered as late as the last, for they take turns at every step. */
  atOnce: number;
  /** Whoever takes longer than this (a slow line, a slow statement, a large file) holds up nobody behind. */
  holdsMs: number;
  /** More would only use up memory. */
  mostWaiting: number;
};
const BOUNDS: Bounds = { atOnce: 6, holdsMs: 300, mostWaiting: 1000 };
/** What asks whether the server is well goes past everybody, and files that are only handed out do. */
const PAST = /^\/(api\/(health|alive|metrics)|_next\/static)(\/|\?|$)/;

type Waiting = { response: ServerResponse; go: () => void };
type Line = {
  bounds: Bounds;
  inHand: number;
  waiting: number;
  due: boolean;
  by: Map<string, Waiting[]>;
  /** Connections accepted, and as of when somebody was last to be called. */
  accepted: number;
  looked: number;
  /** When it was first seen that more are coming; 0 while none are. */
  heldSince: number;
};

/** Who waits longest of whoever had no turn for longest: one address that asks a hundred times waits behind nobody but itself. */
function next(line: Line): Waiting | undefined {
  for (const [who, theirs] of line.by) {
    line.by.delete(who);
    const one = theirs.shift();
    if (theirs.length > 0) line.by.set(who, theirs);
    if (!one) continue;
    line.waiting--;
    // Those who went away need no answer.
    if (!one.response.destroyed) return one;
  }
  return undefined;
}

function begin(line: Line, { response, go }: Waiting): void {
  line.inHand++;
  const done = () => {
    clearTimeout(timer);
    response.off('close', done);
    line.inHand--;
    callNext(line);
  };
  const timer = setTimeout(done, line.bounds.holdsMs).unref();
  response.once('close', done);
  go();
}

/** While connections come in: so long at most, with nothing in hand and with something. */
const HOLD_IDLE_MS = 50;
const HOLD_BUSY_MS = 1000;

/**
 * Whether more connections came in the turn of the loop just past. The loop accepts one a turn (libuv since 1.45), and with six requests
 * at work a turn takes as long as a step of each: of 150 that come together the last was accepted after seconds, whatever it asked.
 * So nobody is called until all are in; those in hand end meanwhile, and then turns are short.
 */
function moreAreComing(line: Line): boolean {
  const [more, now] = [line.accepted !== line.looked, performance.now()];
  line.looked = line.accepted;
  line.heldSince = more ? line.heldSince || now : 0;
  if (!more || now - line.heldSince < (line.inHand > 0 ? HOLD_BUSY_MS : HOLD_IDLE_MS)) return more;
  line.heldSince = 0;
  return false;
}

/** One at a time, each in a turn of its own of the loop: whoever goes past everybody gets in between. */
function callNext(line: Line): void {
  if (line.due || line.waiting === 0 || line.inHand >= line.bounds.atOnce) return;
  line.due = true;
  setImmediate(() => {
    line.due = false;
    if (!moreAreComing(line)) {
      const one = next(line);
      if (one) begin(line, one);
    }
    callNext(line);
  });
}

function refuse(response: ServerResponse): void {
  const text = { 'content-type': 'text/plain; charset=utf-8', 'content-security-policy': "default-src 'none'", 'retry-after': '5' };
  response.writeHead(503, text).end('The office is very busy right now. Nothing was changed; try again in a moment.\n');
}

/** Lets a server's requests take turns. @param whoAsks the address that a request counts for */
function patch(server: Server, whoAsks: (request: IncomingMessage) => string, bounds: Bounds): void {
  const line: Line = { bounds, inHand: 0, waiting: 0, due: false, by: new Map(), accepted: 0, looked: 0, heldSince: 0 };
  const emit = server.emit.bind(server);
  server.emit = (event: string, ...args: unknown[]): boolean => {
    if (event === 'connection') line.accepted++;
    const [request, response] = args;
    if (event !== 'request' || !(request instanceof IncomingMessage) || !(response instanceof ServerResponse)) return emit(event, ...args);
    const go = AsyncResource.bind(() => void emit(event, ...args));
    if (PAST.test(request.url ?? '')) go();
    else if (line.waiting === 0 && line.inHand < bounds.atOnce && line.accepted === line.looked) begin(line, { response, go });
    else if (line.waiting + line.inHand >= bounds.mostWaiting + bounds.atOnce) refuse(response);
    else {
      const who = whoAsks(request);
      const theirs = line.by.get(who) ?? [];
      theirs.push({ response, go });
      line.by.set(who, theirs);
      line.waiting++;
      callNext(line);
    }
    return true;
  };
}

/**
 * From the first request on, only a few are worked on at once, and the others wait in line, address by address in turn. So a flood makes
 * its own senders wait, and the server still says that it is well. @param whoAsks the address that a request counts for @returns ends it
 * for servers that are not known yet
 */
export function takeTurns(whoAsks: (request: IncomingMessage) => string, bounds: Bounds = BOUNDS): () => void {
  const seen = new WeakSet<Server>();
  const watch = (message: unknown) => {
    const server = fieldOf(message, 'server');
    if (!(server instanceof Server) || seen.has(server)) return;
    seen.add(server);
    patch(server, whoAsks, bounds);
  };
  diagnostics.subscribe('http.server.request.start', watch);
  return () => void diagnostics.unsubscribe('http.server.request.start', watch);
}
