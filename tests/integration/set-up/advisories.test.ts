import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { expect, it } from 'vitest';

type Advisory = { id: number; url: string; title: string; severity: string; vulnerable_versions: string };

/** The command against a registry on this machine that knows of one advisory, or does not answer such questions. */
async function asked(severity: string | null): Promise<{ code: number; said: string }> {
  const advisory = (s: string): Advisory => ({
    id: 1,
    url: 'https://advisories.example/1',
    title: 'Keys leak',
    severity: s,
    vulnerable_versions: '*',
  });
  const registry = createServer((request, response) => {
    request.resume();
    if (request.url?.includes('advisories/bulk') && severity) return void response.end(JSON.stringify({ aws4fetch: [advisory(severity)] }));
    if (request.url === '/aws4fetch')
      return void response.end(
        JSON.stringify({ name: 'aws4fetch', 'dist-tags': {}, versions: { '1.0.20': { name: 'aws4fetch', version: '1.0.20' } } }),
      );
    response.writeHead(405).end();
  });
  registry.listen(0, '127.0.0.1');
  await once(registry, 'listening');
  // npm remembers what it was told of an advisory.
  const cache = mkdtempSync(path.join(os.tmpdir(), 'rimebook-advisories-'));
  const env = {
    ...process.env,
    npm_config_cache: cache,
    npm_config_registry: `http://127.0.0.1:${(registry.address() as AddressInfo).port}/`,
  };
  const child = spawn(process.execPath, ['scripts/advisories.mjs'], { env });
  let said = '';
  child.stdout.on('data', (d: Buffer) => (said += d.toString()));
  const [code] = (await once(child, 'close')) as [number];
  registry.closeAllConnections();
  registry.close();
  rmSync(cache, { recursive: true, force: true });
  return { code, said };
}

it('advisories on what the app runs with: grave ones fail the build, lesser ones and a registry that is silent do not', async () => {
  expect(await asked('critical')).toEqual({ code: 1, said: expect.stringMatching(/1 grave, 0 lesser[^]*aws4fetch: critical\. Keys leak/) });
  expect(await asked('moderate')).toEqual({ code: 0, said: expect.stringMatching(/0 grave, 1 lesser/) });
  expect(await asked(null)).toEqual({ code: 0, said: expect.stringMatching(/does not answer; not looked at/) });
});
