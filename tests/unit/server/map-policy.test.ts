import { afterEach, describe, expect, it, vi } from 'vitest';
import { contentSecurityPolicy, officePolicy } from '@/lib/server/answers/content-security-policy';
import { tileHost } from '@/lib/server/position/tile-host';

afterEach(() => vi.unstubAllEnvs());
const pictures = (policy: string) => policy.split('; ').find((p) => p.startsWith('img-src'));

describe('where a page may load pictures of a map from', () => {
  it('is nowhere until the shop has named a server of tiles, and then that one', () => {
    vi.stubEnv('RIMEBOOK_MAP_TILES', '');
    expect(officePolicy()).toBe(contentSecurityPolicy());
    vi.stubEnv('RIMEBOOK_MAP_TILES', 'https://tiles.example.com/{z}/{x}/{y}.png?key=a');
    expect(pictures(officePolicy("'nonce-x'"))).toBe("img-src 'self' data: blob: https://tiles.example.com");
    // Neither the tablet's shell nor what is no page shows a map.
    expect(pictures(contentSecurityPolicy())).toBe("img-src 'self' data: blob:");
  });

  it.each([
    ['https://{s}.tiles.example.com/{z}/{x}/{y}.png', 'https://*.tiles.example.com'],
    ['http://127.0.0.1:8080/{z}/{x}/{y}.png', 'http://127.0.0.1:8080'],
    ['https://tiles.example.com; script-src *//{z}/{x}/{y}', ''],
    ['https://*/{z}/{x}/{y}', ''],
    ['javascript:alert(1)', ''],
  ])('%s is the source %s', (tiles, source) => {
    expect(tileHost(tiles)).toBe(source);
  });
});
