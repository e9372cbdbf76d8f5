import { describe, expect, it } from 'vitest';
import { can, ROLES, type Permission, type Role } from '../../../lib/core/people/access';

type Said = 'yes' | 'own' | '-';

/** Who may do what, to be read by a person. `own`: only what is theirs. A dash: not at all. A permission without a row does not compile. */
// prettier-ignore
const GRANTED = {
  //                      owner  dispatcher  technician
  'read:equipment':      ['yes', 'yes',      'yes'],
  'write:equipment':     ['yes', 'yes',      '-'],
  'import:equipment':    ['yes', 'yes',      '-'],
  'export:equipment':    ['yes', 'yes',      '-'],
  'read:due':            ['yes', 'yes',      '-'],
  'read:visit':          ['yes', 'yes',      '-'],
  'read:visit:own':      ['yes', 'yes',      'own'],
  'book:visit':          ['yes', 'yes',      '-'],
  'fill:visit':          ['yes', 'yes',      '-'],
  'fill:visit:own':      ['yes', 'yes',      'own'],
  'settle:entry':        ['yes', 'yes',      '-'],
  'read:job':            ['yes', 'yes',      '-'],
  'write:job':           ['yes', 'yes',      '-'],
  'write:part':          ['yes', 'yes',      '-'],
  'plan:week':           ['yes', 'yes',      '-'],
  'read:rules':          ['yes', 'yes',      'yes'],
  'write:rules':         ['yes', 'yes',      '-'],
  'overrule:rules':      ['yes', '-',        '-'],
  'read:fouling':        ['yes', 'yes',      '-'],
  'manage:people':       ['yes', '-',        '-'],
  'manage:shop':         ['yes', '-',        '-'],
  'export:everything':   ['yes', '-',        '-'],
  'read:messages':       ['yes', 'yes',      '-'],
  'send:report':         ['yes', 'yes',      '-'],
  'look-up:refrigerant': ['yes', 'yes',      'yes'],
  'read:refrigerant-book': ['yes', 'yes',    '-'],
  'write:refrigerant-book': ['yes', 'yes',   '-'],
  'decide:unit':         ['yes', '-',        '-'],
  'edit:self':           ['yes', 'yes',      'yes'],
  'secure:self':         ['yes', 'yes',      'yes'],
} as const satisfies Record<Permission, readonly [owner: Said, dispatcher: Said, technician: Said]>;

const COLUMNS = ['owner', 'dispatcher', 'technician'] as const satisfies readonly Role[];

const cells = Object.entries(GRANTED).flatMap(([permission, row]) =>
  COLUMNS.map((role, i) => ({ permission: permission as Permission, role, granted: row[i] })),
);

describe('grants', () => {
  it('the table speaks of every role', () => expect(COLUMNS).toEqual(ROLES));

  it.each(cells)('$role, $permission: $granted', ({ permission, role, granted }) => {
    const me = { role, userId: 'me' };
    expect(can(me, permission)).toBe(granted !== '-');
    expect(can(me, permission, { ownerId: 'me' })).toBe(granted !== '-');
    expect(can(me, permission, { ownerId: 'somebody else' })).toBe(granted === 'yes');
    expect(can(me, permission, { ownerId: null })).toBe(granted === 'yes');
  });
});
