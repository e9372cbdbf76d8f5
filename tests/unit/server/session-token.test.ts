import { encode } from 'next-auth/jwt';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { secondStepKey, secondStepKeyBefore } from '@/lib/server/people/second-step-key';
import { readSessionToken } from '@/lib/server/people/session-token';

// The environment is read once a process.
vi.hoisted(() => vi.resetModules());
afterAll(() => void vi.resetModules());
const [NOW, BEFORE, OTHER] = ['a secret of these tests alone', 'the secret they had before', 'a secret of somebody else'];
beforeAll(() => {
  vi.stubEnv('DATABASE_URL', 'postgresql://nowhere');
  vi.stubEnv('NEXTAUTH_SECRET', NOW);
  vi.stubEnv('NEXTAUTH_SECRET_BEFORE', BEFORE);
});
const signed = (secret: string, maxAge = 3600) => encode({ token: { sid: 'a session' }, secret, maxAge });

describe('while the shop’s secret is being changed', () => {
  it('what the new one signed and what the one before signed both count, and nothing else', async () => {
    expect(await readSessionToken({ token: await signed(NOW) })).toMatchObject({ sid: 'a session' });
    expect(await readSessionToken({ token: await signed(BEFORE) })).toMatchObject({ sid: 'a session' });
    expect(await readSessionToken({ token: await signed(OTHER) })).toBeNull();
    expect(await readSessionToken({ token: await signed(BEFORE, -3600) })).toBeNull();
    for (const token of ['', 'nonsense', undefined]) expect(await readSessionToken({ token })).toBeNull();
  });

  it('each has a key of its own for second steps', () => {
    expect(secondStepKeyBefore()).toHaveLength(32);
    expect(secondStepKeyBefore()).not.toEqual(secondStepKey());
  });
});
