import net from 'node:net';
import os from 'node:os';
import { afterEach, expect, it } from 'vitest';
import { freePort, isFree } from '../../../scripts/support/ports.mjs';

let server: net.Server | undefined;
afterEach(() => new Promise<void>((done) => (server?.listening ? server.close(() => done()) : done())));

const listen = (host: string) =>
  new Promise<number>((ready, refuse) => {
    server = net.createServer().once('error', refuse);
    server.listen(0, host, () => ready((server?.address() as net.AddressInfo).port));
  });

// A container may have no IPv6.
const hasIPv6 = Object.values(os.networkInterfaces()).some((all) => all?.some(({ family }) => family === 'IPv6'));

it.each(['127.0.0.1', '0.0.0.0', ...(hasIPv6 ? ['::1', '::'] : [])])('sees a program that listens on %s', async (host) => {
  const port = await listen(host);
  expect(await isFree(port)).toBe(false);
  expect(await freePort(port)).not.toBe(port);
});

it('keeps a port that is still free', async () => {
  const port = await freePort();
  expect(await isFree(port)).toBe(true);
  expect(await freePort(port)).toBe(port);
});
