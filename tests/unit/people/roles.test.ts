import { describe, expect, it } from 'vitest';
import { can, ROLE_INFO, ROLES, rolesWith, takesVisits, VISITING_ROLES, type Permission, type Role } from '@/lib/core/people/access';
import { enumOf } from '../../support/prisma-schema';

const me = 'me';
const mine = { ownerId: me };
const theirs = { ownerId: 'someone' };

describe('roles', () => {
  it('are those of the database, each with its first screen', () => {
    expect(ROLES).toEqual(enumOf('Role'));
    for (const role of ROLES) expect(ROLE_INFO[role].firstScreen).toMatch(/^\//);
    expect(VISITING_ROLES).toEqual(['technician']);
    for (const role of ROLES)
      expect([false, true].map((alsoVisits) => takesVisits({ role, alsoVisits }))).toEqual([role === 'technician', true]);
  });

  it('may do what is named and nothing else: one that nobody named is no office', () => {
    const stranger = { userId: me, role: 'apprentice' as Role };
    for (const permission of ['read:visit', 'fill:visit:own', 'edit:self'] satisfies Permission[])
      expect(can(stranger, permission, mine)).toBe(false);
    expect(rolesWith('fill:visit')).toEqual(['owner', 'dispatcher']);
    expect(rolesWith('manage:people')).toEqual(['owner']);
  });

  it.each(['read:visit:own', 'fill:visit:own'] satisfies Permission[])(
    '%s is the office’s for anybody, a technician’s for their own',
    (own) => {
      for (const role of ['owner', 'dispatcher'] as const) expect(can({ userId: me, role }, own, theirs)).toBe(true);
      expect(can({ userId: me, role: 'technician' }, own, theirs)).toBe(false);
      expect(can({ userId: me, role: 'technician' }, own, mine)).toBe(true);
      expect(can({ userId: me, role: 'technician' }, own, { ownerId: null })).toBe(false);
    },
  );
});
