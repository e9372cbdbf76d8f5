import { readdirSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { log } from '@/lib/server/process/log';
import { isReadIn, OPENED_FIRST, readInAtFirst } from '@/lib/server/process/read-in';

let server: Server;
let asked: string[] = [];
let hold: Promise<void> = Promise.resolve();
let end = () => {};
const ask = async (path: string) => (await fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}${path}`)).text();

beforeEach(async () => {
  vi.spyOn(log, 'info').mockImplementation(() => {});
  asked = [];
  hold = Promise.resolve();
  server = createServer((request, response) => {
    asked.push(request.url ?? '');
    if (request.url === '/broken') return void request.socket.destroy();
    void (request.url === '/well' ? Promise.resolve() : hold).then(() => response.end('x'.repeat(100_000)));
  });
  await new Promise<void>((ok) => void server.listen(0, '127.0.0.1', ok));
});
afterEach(() => {
  end();
  server.closeAllConnections();
  server.close();
  delete (globalThis as { rimebookReadIn?: boolean }).rimebookReadIn;
});

it('the first request makes the server open each page once, one after the other, and until all are read in it is not ready', async () => {
  expect(isReadIn()).toBe(true);
  end = readInAtFirst(['/one', '/broken', '/two']);
  expect(isReadIn()).toBe(false);
  let go = () => {};
  hold = new Promise((ok) => (go = ok));
  await ask('/well');
  await vi.waitFor(() => expect(asked).toEqual(['/well', '/one']));
  // Whoever asks meanwhile is answered, and begins nothing again.
  await ask('/well');
  expect([asked, isReadIn()]).toEqual([['/well', '/one', '/well'], false]);
  go();
  await vi.waitFor(() => expect(isReadIn()).toBe(true));
  expect(asked).toEqual(['/well', '/one', '/well', '/broken', '/two']);
  await ask('/well');
  expect(asked.filter((path) => path === '/one')).toHaveLength(1);
});

it('what is opened first is there to be opened', () => {
  const there = readdirSync('app', { recursive: true, encoding: 'utf8' })
    .filter((file) => /(^|\/)(page\.tsx|route\.ts)$/.test(file))
    .map((file) => `/${file}`.replace(/\/(page\.tsx|route\.ts)$/, '').replace(/\/\([^)]+\)/g, ''))
    .map((address) => new RegExp(`^${address.replace(/\[[^\]]+\]/g, '[^/]+')}$`));
  expect(OPENED_FIRST.filter((path) => !there.some((one) => one.test(path)))).toEqual([]);
});
