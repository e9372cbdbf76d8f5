import diagnostics from 'node:diagnostics_channel';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { connect, type AddressInfo } from 'node:net';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { reference } from '@/lib/server/process/in-hand';
import { log } from '@/lib/server/process/log';
import { REFERENCE, watchRequests } from '@/lib/server/process/requests';
import { takeTurns } from '@/lib/server/process/take-turns';

const BOUNDS = { atOnce: 3, holdsMs: 60_000, mostWaiting: 20 };
const whoAsks = (request: IncomingMessage) => String(request.headers['x-who'] ?? 'one');
let end = () => {};
let arrived = 0;
const count = () => void arrived++;
beforeEach(() => {
  vi.spyOn(log, 'info').mockImplementation(() => {});
  arrived = 0;
  diagnostics.subscribe('http.server.request.start', count);
});
afterEach(() => {
  end();
  diagnostics.unsubscribe('http.server.request.start', count);
});

/** A server whose requests are in hand until the test lets them go, in the order in which they were begun. */
async function serving(bounds = BOUNDS) {
  watchRequests();
  const stop = takeTurns(whoAsks, bounds);
  const inHand: { who: string; answer: () => void }[] = [];
  const server: Server = createServer((request: IncomingMessage, response: ServerResponse) => {
    if (request.url === '/api/alive') return void response.end('alive');
    inHand.push({ who: whoAsks(request), answer: () => response.end('done') });
    request.resume();
  });
  await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  end = () => {
    stop();
    server.closeAllConnections();
    server.close();
  };
  const ask = async (who = 'one') => {
    const reply = await fetch(`http://127.0.0.1:${port}/`, { method: 'POST', body: 'x', headers: { 'x-who': who } });
    return `${reply.status} ${await reply.text()}`;
  };
  const alive = async () => (await fetch(`http://127.0.0.1:${port}/api/alive`)).text();
  return { port, inHand, ask, alive };
}

it('of many at once a few are in hand, each is answered at last, and whether the server is well is told meanwhile', async () => {
  const { inHand, ask, alive } = await serving();
  const all = Promise.all(Array.from({ length: 20 }, () => ask()));
  await vi.waitFor(() => expect(arrived).toBe(20));
  expect(inHand).toHaveLength(3);
  expect(await alive()).toBe('alive');
  for (let done = 0; done < 20; done++) {
    await vi.waitFor(() => expect(inHand.length).toBeGreaterThan(done));
    expect(inHand.length).toBeLessThanOrEqual(done + 3);
    inHand[done]?.answer();
  }
  expect((await all).map((a) => a.slice(0, 3))).toEqual(Array<string>(20).fill('200'));
});

it('whoever asks twenty times waits behind nobody but himself', async () => {
  const { inHand, ask } = await serving();
  const all = Array.from({ length: 19 }, () => ask('flood'));
  await vi.waitFor(() => expect(arrived).toBe(19));
  all.push(ask('other'));
  await vi.waitFor(() => expect(arrived).toBe(20));
  for (let done = 0; done < 20; done++) {
    await vi.waitFor(() => expect(inHand.length).toBeGreaterThan(done));
    inHand[done]?.answer();
  }
  await Promise.all(all);
  expect(inHand.findIndex(({ who }) => who === 'other')).toBeLessThanOrEqual(4);
});

it('beyond its bound the line is shut, with words', async () => {
  const { inHand, ask } = await serving({ ...BOUNDS, mostWaiting: 1 });
  const four = Array.from({ length: 4 }, () => ask());
  await vi.waitFor(() => expect(arrived).toBe(4));
  expect(await ask()).toMatch(/^503 The office is very busy/);
  for (let done = 0; done < 4; done++) {
    await vi.waitFor(() => expect(inHand.length).toBeGreaterThan(done));
    inHand[done]?.answer();
  }
  await Promise.all(four);
});

it('a slow line holds up nobody for long, and who went away is not worked for', async () => {
  const { port, inHand, ask } = await serving({ ...BOUNDS, holdsMs: 200 });
  const slow = Array.from({ length: 6 }, () => {
    const socket = connect(port, '127.0.0.1');
    socket.write('POST / HTTP/1.1\r\nhost: x\r\ncontent-length: 5\r\n\r\nab');
    return socket;
  });
  await vi.waitFor(() => expect(arrived).toBe(6));
  for (const socket of slow.slice(4)) socket.destroy();
  const mine = ask('me');
  await vi.waitFor(() => expect(inHand.map(({ who }) => who)).toContain('me'));
  inHand.find(({ who }) => who === 'me')?.answer();
  expect(await mine).toMatch(/^200/);
  await vi.waitFor(() => expect(inHand.length).toBeGreaterThanOrEqual(5));
  expect(inHand).toHaveLength(5);
  for (const socket of slow) socket.destroy();
});

it('a request that waited is itself again: what it is logged under has not changed', async () => {
  watchRequests();
  const stop = takeTurns(whoAsks, { ...BOUNDS, atOnce: 1 });
  const server = createServer((_, response) => void setTimeout(() => response.end(reference()), 5));
  await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
  end = () => {
    stop();
    server.closeAllConnections();
    server.close();
  };
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  const answers = await Promise.all(Array.from({ length: 8 }, () => fetch(url)));
  expect(await Promise.all(answers.map((a) => a.text()))).toEqual(answers.map((a) => a.headers.get(REFERENCE)));
});

it('connections that come together are all accepted before work on most of them begins', async () => {
  watchRequests();
  const stop = takeTurns(whoAsks, { ...BOUNDS, mostWaiting: 100 });
  const arrivedAt: number[] = [];
  // Each holds the loop for a moment in each of its turns, as a page that is drawn does.
  const step = (left: number, response: ServerResponse): void => {
    const until = performance.now() + 2;
    while (performance.now() < until);
    if (left === 0) response.end('done');
    else setImmediate(step, left - 1, response);
  };
  const server = createServer((_, response) => {
    arrivedAt.push(arrived);
    step(4, response);
  });
  await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  const sockets = Array.from({ length: 30 }, () => connect(port, '127.0.0.1').resume());
  end = () => {
    stop();
    for (const socket of sockets) socket.destroy();
    server.closeAllConnections();
    server.close();
  };
  for (const socket of sockets) socket.write('GET / HTTP/1.1\r\nhost: x\r\n\r\n');
  await vi.waitFor(() => expect(arrivedAt).toHaveLength(30), 5000);
  expect(arrivedAt[8]).toBe(30);
});
