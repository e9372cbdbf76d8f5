import { describe, expect, it } from 'vitest';
import { ROLE_INFO, ROLES, roleInfo, type Permission } from '@/lib/core/people/access';
import { asksProof, asksStep, isProven } from '@/lib/core/people/proof';
import { LONGEST_SESSION_MS, sessionHolds } from '@/lib/core/people/session-limits';

const now = new Date('2026-03-04T18:00:00Z');
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const ago = (ms: number) => new Date(now.getTime() - ms);

describe('a sign-in', () => {
  const held = (over: Partial<{ createdAt: Date; lastSeenAt: Date; expiresAt: Date }> = {}) => ({
    createdAt: ago(HOUR),
    lastSeenAt: ago(MINUTE),
    expiresAt: ago(-HOUR),
    ...over,
  });

  it.each([
    ['owner', 4 * HOUR, 12 * HOUR],
    ['dispatcher', 12 * HOUR, 7 * 24 * HOUR],
    ['technician', 14 * 24 * HOUR, 30 * 24 * HOUR],
  ] as const)('of %s ends untouched, and at all, when it says', (role, idle, most) => {
    expect(roleInfo(role).sessionMs).toEqual({ idle, most });
    expect(sessionHolds(role, held(), now)).toBe(true);
    expect(sessionHolds(role, held({ createdAt: ago(most), lastSeenAt: ago(idle - 1) }), now)).toBe(false);
    expect(sessionHolds(role, held({ createdAt: ago(most - 1), lastSeenAt: ago(idle - 1) }), now)).toBe(true);
    expect(sessionHolds(role, held({ createdAt: ago(most - 1), lastSeenAt: ago(idle) }), now)).toBe(false);
    expect(sessionHolds(role, held({ expiresAt: now }), now)).toBe(false);
    expect(sessionHolds(role, held({ expiresAt: ago(-1) }), now)).toBe(true);
  });

  it('has a cookie that lives as long as the longest', () => expect(LONGEST_SESSION_MS).toBe(30 * 24 * HOUR));

  it('of each role says what the person is for', () => {
    for (const role of ROLES) expect(ROLE_INFO[role].duties).toMatch(/^[A-Z].+\.$/);
    expect(new Set(ROLES.map((role) => ROLE_INFO[role].duties)).size).toBe(ROLES.length);
  });
});

describe('a second step', () => {
  it('is asked where roles are given and where everything leaves, and nowhere in a day’s work', () => {
    const asked: Permission[] = ['manage:people', 'export:everything'];
    for (const one of asked) expect([asksStep(one), asksProof(one)]).toEqual([true, true]);
    for (const one of ['secure:self', 'edit:self', 'manage:shop', 'book:visit', 'overrule:rules'] satisfies Permission[])
      expect(asksStep(one)).toBe(false);
  });
});

describe('the password once more', () => {
  it('is asked where harm could be done or everything carried out', () => {
    for (const one of ['manage:people', 'export:equipment', 'export:everything', 'secure:self'] satisfies Permission[])
      expect(asksProof(one)).toBe(true);
    for (const one of ['read:due', 'edit:self', 'write:rules', 'manage:shop'] satisfies Permission[]) expect(asksProof(one)).toBe(false);
  });

  it('lasts half an hour for opening, an hour for finishing', () => {
    const after = (minutes: number, what: 'open' | 'finish') => isProven(ago(minutes * MINUTE), now, what);
    expect([after(0, 'open'), after(29.9, 'open'), after(30, 'open')]).toEqual([true, true, false]);
    expect([after(30, 'finish'), after(59.9, 'finish'), after(60, 'finish')]).toEqual([true, true, false]);
  });
});
