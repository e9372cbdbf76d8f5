import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { knownDeviceCookie, markOf, newKnownDevice, readKnownDevice } from '@/lib/server/people/known-device';

// The environment is read once a process.
vi.hoisted(() => vi.resetModules());
afterAll(() => void vi.resetModules());
beforeAll(() => {
  vi.stubEnv('DATABASE_URL', 'postgresql://nowhere');
  vi.stubEnv('NEXTAUTH_SECRET', 'a secret of these tests alone');
});

const HERS = 'tova@shop.example';

describe('a known device', () => {
  it('is known again, by the account it was made for, in any case', () => {
    const cookie = newKnownDevice(HERS);
    expect(readKnownDevice(' Tova@Shop.example', cookie)).toBe(cookie.split('.')[0]);
    expect(newKnownDevice(HERS)).not.toBe(cookie);
  });

  it('is nobody else’s, and cannot be made up', () => {
    const cookie = newKnownDevice(HERS);
    const [id, signature] = cookie.split('.');
    expect(readKnownDevice('maren@shop.example', cookie)).toBeNull();
    expect(readKnownDevice(HERS, `x${id}.${signature}`)).toBeNull();
    expect(readKnownDevice(HERS, `${id}.${signature}x`)).toBeNull();
    expect(readKnownDevice(HERS, `${id}.`)).toBeNull();
    expect(readKnownDevice(HERS, id)).toBeNull();
    expect(readKnownDevice(HERS, '')).toBeNull();
    expect(readKnownDevice(HERS, undefined)).toBeNull();
  });

  it('has a cookie an account, so that a shared tablet knows each of them', () => {
    expect(knownDeviceCookie(HERS)).toBe(knownDeviceCookie('TOVA@shop.example '));
    expect(knownDeviceCookie(HERS)).not.toBe(knownDeviceCookie('maren@shop.example'));
    expect(knownDeviceCookie(HERS)).toMatch(/^rimebook-device-[\w-]{12}$/);
  });
});

it('a mark for the log is the same each time and says nothing', () => {
  expect(markOf(HERS)).toBe(markOf(HERS));
  expect(markOf(HERS)).not.toBe(markOf('maren@shop.example'));
  expect(markOf(HERS)).toMatch(/^[\w-]{10}$/);
});
