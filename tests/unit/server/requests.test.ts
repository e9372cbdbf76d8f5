import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { describe, expect, it } from 'vitest';
import { reference } from '@/lib/server/in-hand';
import { loggedError } from '@/lib/server/log';
import { metrics } from '@/lib/server/metrics';
import { loggedPath, REFERENCE, watchRequests } from '@/lib/server/requests';

describe('what the log keeps', () => {
  it('of an address: no query, and no secret of a link', () => {
    expect(loggedPath('/due?customer=Lantern')).toBe('/due');
    expect(loggedPath('/visit/3q9Zk1_a8sUuWcXoPlM0aaTTkkYYqq')).toBe('/visit/…');
    expect(loggedPath('/units/6f1c1c1e-9d3e-4a57-9a4e-0a2b7a0f6d11')).toBe('/units/…');
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
