/** Who may do what. One place, asked by every page, action and route. */

export const ROLES = ['owner', 'dispatcher', 'technician'] as const;
export type Role = (typeof ROLES)[number];

export const ROLE_LABEL: Record<Role, string> = { owner: 'Owner', dispatcher: 'Dispatcher', technician: 'Technician' };

export type Actor = { userId: string; role: Role; name: string; sessionId: string };

const GRANTS = {
  'read:equipment': ['owner', 'dispatcher', 'technician'],
  'write:equipment': ['owner', 'dispatcher'],
  'import:equipment': ['owner', 'dispatcher'],
  'read:due': ['owner', 'dispatcher'],
  'read:visit': ['owner', 'dispatcher'],
  'read:visit:own': ['owner', 'dispatcher', 'technician'],
  'book:visit': ['owner', 'dispatcher'],
  'fill:visit:own': ['owner', 'dispatcher', 'technician'],
  'settle:entry': ['owner', 'dispatcher'],
  'settle:follow-up': ['owner', 'dispatcher'],
  'plan:week': ['owner', 'dispatcher'],
  'read:rules': ['owner', 'dispatcher', 'technician'],
  'write:rules': ['owner', 'dispatcher'],
  'overrule:rules': ['owner'],
  'read:fouling': ['owner', 'dispatcher'],
  'manage:people': ['owner'],
  'manage:shop': ['owner'],
  'read:messages': ['owner', 'dispatcher'],
  'look-up:refrigerant': ['owner', 'dispatcher', 'technician'],
  'edit:self': ['owner', 'dispatcher', 'technician'],
} as const satisfies Record<string, readonly Role[]>;

export type Permission = keyof typeof GRANTS;
/**
 * Whether the actor holds the permission. An `:own` permission with a resource also asks that the resource
 * is the actor's, unless the office role holds the wider permission.
 */
export function can(actor: Pick<Actor, 'role' | 'userId'>, permission: Permission, resource?: { ownerId: string | null }): boolean {
  if (!(GRANTS[permission] as readonly Role[]).includes(actor.role)) return false;
  if (!resource || !permission.endsWith(':own')) return true;
  return actor.role !== 'technician' || resource.ownerId === actor.userId;
}
