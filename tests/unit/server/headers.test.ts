import { NextRequest } from 'next/server';
import { afterEach, expect, it, vi } from 'vitest';
import { proxy } from '@/proxy';

const answered = (baseUrl: string) => {
  vi.stubEnv('NEXTAUTH_URL', baseUrl);
  return proxy(new NextRequest(`${baseUrl}/due`)).headers;
};
afterEach(() => void vi.unstubAllEnvs());

it('a page of a shop with a certificate tells the browser never to ask without it, another none', () => {
  expect(answered('https://shop.example').get('strict-transport-security')).toBe('max-age=31536000');
  expect(answered('http://localhost:3000').get('strict-transport-security')).toBeNull();
});

it('each page has a policy with a nonce of its own, and stands in no frame', () => {
  const policies = [answered('http://localhost:3000'), answered('http://localhost:3000')].map(
    (h) => h.get('content-security-policy') ?? '',
  );
  const nonces = policies.map((p) => /'nonce-([A-Za-z0-9+/=]{20,})'/.exec(p)?.[1]);
  expect(nonces.every(Boolean)).toBe(true);
  expect(nonces[0]).not.toBe(nonces[1]);
  for (const policy of policies) {
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/script-src[^;]*'unsafe-(inline|eval)'/);
  }
});

it('what is larger than the framework takes in is refused with words, before it is read', async () => {
  const sent = (bytes: number) =>
    proxy(new NextRequest('http://localhost:3000/customers/import', { method: 'POST', headers: { 'content-length': String(bytes) } }));
  expect(sent(12 * 1024 * 1024).status).toBe(200);
  const refused = sent(12 * 1024 * 1024 + 1);
  expect([refused.status, await refused.text()]).toEqual([413, expect.stringContaining('split the file')]);
});
