import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { reference } from '@/lib/server/process/in-hand';
import { log, loggedError } from '@/lib/server/process/log';
import { metrics } from '@/lib/server/process/metrics';
import { ADDRESS, loggedPath, PEER, REFERENCE, watchRequests } from '@/lib/server/process/requests';

// The files of one worker share a process, and its counters.
beforeAll(() => metrics().registry.resetMetrics());

describe('what the log keeps', () => {
  it('of an address: no query, and no secret of a link', () => {
    expect(loggedPath('/due?customer=Lantern')).toBe('/due');
    expect(loggedPath('/visit/3q9Zk1_a8sUuWcXoPlM0aaTTkkYYqq')).toBe('/visit/…');
    expect(loggedPath('/units/6f1c1c1e-9d3e-4a57-9a4e-0a2b7a0f6d11')).toBe('/units/…');
  });

  it('of an address: names of files, what is short, and never more than 200 characters', () => {
    expect(loggedPath('/quarters/a-file-with-a-rather-long-name.pdf')).toBe('/quarters/a-file-with-a-rather-long-name.pdf');
    expect(loggedPath(`/${'a'.repeat(24)}/${'a'.repeat(25)}`)).toBe(`/${'a'.repeat(24)}/…`);
    expect(loggedPath('/ab'.repeat(100))).toBe('/ab'.repeat(100).slice(0, 200));
  });

  it('of an error: what is wrong, and nobody’s address or form', () => {
    const typed = new Error('Invalid `create()`:\n  email: "cook@lantern.example"\n\nArgument `name` of cook@lantern.example is missing.');
    const kept = JSON.stringify(loggedError(typed));
    expect(kept).toContain('Argument `name`');
    expect(kept).not.toContain('lantern');
  });
});

describe('a request', () => {
  it('has a reference of its own, in its answer and for whoever handles it, and is counted', async () => {
    watchRequests();
    const server = createServer((_, res) => void setTimeout(() => res.end(reference()), 5));
    await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
    const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
    try {
      const answers = await Promise.all([fetch(url), fetch(url), fetch(url)]);
      const seen = await Promise.all(answers.map((a) => a.text()));
      expect(seen).toEqual(answers.map((a) => a.headers.get(REFERENCE)));
      expect(new Set(seen).size).toBe(3);
      expect(seen[0]).toMatch(/^[0-9A-HJKMNP-TV-Z]{8}$/);
      expect(reference()).toBeNull();
    } finally {
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    }
    expect(await metrics().registry.metrics()).toMatch(/rimebook_request_seconds_count\{method="GET",status="2xx"\} 3/);
  });
});

describe('whoever handles a request', () => {
  it('finds the page’s own address without the framework’s mark, and who is connected whatever was written', async () => {
    watchRequests();
    const said = vi.spyOn(log, 'info').mockImplementation(() => {});
    const server = createServer((request, res) => void res.end(JSON.stringify([request.headers[ADDRESS], request.headers[PEER]])));
    await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
    const base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    const ask = async (path: string) =>
      (await (await fetch(base + path, { headers: { [PEER]: '198.51.100.1', [ADDRESS]: '/forged' } })).json()) as string[];
    try {
      const found: Record<string, string | undefined> = {};
      const asked = [
        '/',
        '/due',
        '/due?_rsc=ab1',
        '/due?customer=7&_rsc=ab1',
        '/due?_rsc=ab1&customer=7',
        '/due?customer=7',
        '/due?q=a_rsc%3Db',
      ];
      for (const path of asked) found[path] = (await ask(path))[0];
      expect(found).toEqual({
        '/': '/',
        '/due': '/due',
        '/due?_rsc=ab1': '/due',
        '/due?customer=7&_rsc=ab1': '/due?customer=7',
        '/due?_rsc=ab1&customer=7': '/due?customer=7',
        '/due?customer=7': '/due?customer=7',
        '/due?q=a_rsc%3Db': '/due?q=a_rsc%3Db',
      });
      expect((await ask('/due'))[1]).toBe('127.0.0.1');
      for (const quiet of ['/api/health', '/api/alive', '/api/metrics', '/_next/static/a.js']) await ask(quiet);
      await ask('/kitchens/api/health');
      await vi.waitFor(() => expect(said.mock.calls.at(-1)?.[0]).toMatchObject({ path: '/kitchens/api/health' }));
      const lines = said.mock.calls.map(([line, words]) => ({
        ...(line as { path: string; method: string; status: number; ms: number }),
        words,
      }));
      expect(lines.map((l) => l.path)).toEqual([...asked.map((a) => a.split('?')[0]), '/due', '/kitchens/api/health']);
      for (const line of lines)
        expect(line).toMatchObject({ method: 'GET', status: 200, words: 'answered', reference: expect.stringMatching(/^\w{8}$/) });
      for (const line of lines) expect(line.ms).toBeLessThan(5000);
    } finally {
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    }
  });

  it('who goes away before the answer is logged as that', async () => {
    watchRequests();
    const said = vi.spyOn(log, 'info').mockImplementation(() => {});
    const server = createServer(() => {});
    await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
    const gone = new AbortController();
    const asked = fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}/due`, { signal: gone.signal }).catch(() => 'gone');
    setTimeout(() => gone.abort(), 50);
    expect(await asked).toBe('gone');
    await vi.waitFor(() => expect(said).toHaveBeenCalledWith(expect.objectContaining({ path: '/due', status: 499 }), 'answered'));
    server.closeAllConnections();
    await new Promise((done) => server.close(done));
  });

  it('is whoever was read last, where the same process reads the module anew', async () => {
    watchRequests();
    vi.resetModules();
    const [requests, { log: newLog }] = [await import('@/lib/server/process/requests'), await import('@/lib/server/process/log')];
    const said = vi.spyOn(newLog, 'info').mockImplementation(() => {});
    requests.watchRequests();
    const server = createServer((_, res) => void res.end());
    await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
    await fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}/due`);
    await vi.waitFor(() => expect(said).toHaveBeenCalledTimes(1));
    server.closeAllConnections();
    await new Promise((done) => server.close(done));
    watchRequests();
  });
});
