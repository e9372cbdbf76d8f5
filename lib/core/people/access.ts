import { isOneOf, keysOf } from '../typed/closed-set';

/** Who may do what. One place, asked by every page, action and route. */

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

type RoleInfo = {
  label: string;
  /** What the person is for, on the form that gives the role. */
  duties: string;
  /** Their own first screen. */
  firstScreen: string;
  /** Drives to kitchens: has a round, can be booked, and is planned for. */
  takesVisits: boolean;
  /** How long a sign-in lasts untouched, and at all. */
  sessionMs: { idle: number; most: number };
};

/**
 * Sign-ins: the more one opens, the shorter it lasts. The owner's limits are those of NIST SP 800-63B-3 4.2.3 (AAL2: 12
 * hours) but for its half hour untouched; a tablet spends days in kitchens without signal, and what is written on it must
 * still be sent by whoever wrote it.
 *
 * Every role the database knows. What each may do stands below; a role that is not named there may do nothing.
 */
export const ROLE_INFO = {
  owner: {
    label: 'Owner',
    duties: 'Sees everything, manages people and the shop, overrules rules.',
    firstScreen: '/owner',
    takesVisits: false,
    sessionMs: { idle: 4 * HOUR, most: 12 * HOUR },
  },
  dispatcher: {
    label: 'Dispatcher',
    duties: 'Keeps the equipment on file and books the week.',
    firstScreen: '/due',
    takesVisits: false,
    sessionMs: { idle: 12 * HOUR, most: 7 * DAY },
  },
  technician: {
    label: 'Technician',
    duties: 'Sees the round and fills in visits.',
    firstScreen: '/round',
    takesVisits: true,
    sessionMs: { idle: 14 * DAY, most: 30 * DAY },
  },
} as const satisfies Record<string, RoleInfo>;
export type Role = keyof typeof ROLE_INFO;

export const ROLES = keysOf(ROLE_INFO);
export const roleInfo = (role: Role): RoleInfo => ROLE_INFO[role];
/** Roles that are always out in kitchens. */
export const VISITING_ROLES = ROLES.filter((role) => ROLE_INFO[role].takesVisits);
/** Who can be booked: by role, or because they go to kitchens too. */
export const takesVisits = ({ role, alsoVisits }: { role: Role; alsoVisits: boolean }): boolean =>
  ROLE_INFO[role].takesVisits || alsoVisits;

export type Actor = { userId: string; role: Role; name: string; sessionId: string };

const GRANTS = {
  'read:equipment': ['owner', 'dispatcher', 'technician'],
  'write:equipment': ['owner', 'dispatcher'],
  'import:equipment': ['owner', 'dispatcher'],
  /** All of it at once, as a file. */
  'export:equipment': ['owner', 'dispatcher'],
  'read:due': ['owner', 'dispatcher'],
  'read:visit': ['owner', 'dispatcher'],
  'read:visit:own': ['owner', 'dispatcher', 'technician'],
  'book:visit': ['owner', 'dispatcher'],
  /** Anybody's visit: entries come in from a tablet that once had it, or as a file that the office takes in. */
  'fill:visit': ['owner', 'dispatcher'],
  'fill:visit:own': ['owner', 'dispatcher', 'technician'],
  'settle:entry': ['owner', 'dispatcher'],
  'read:job': ['owner', 'dispatcher'],
  'write:job': ['owner', 'dispatcher'],
  'write:part': ['owner', 'dispatcher'],
  'plan:week': ['owner', 'dispatcher'],
  'read:rules': ['owner', 'dispatcher', 'technician'],
  'write:rules': ['owner', 'dispatcher'],
  'overrule:rules': ['owner'],
  'read:fouling': ['owner', 'dispatcher'],
  'manage:people': ['owner'],
  'manage:shop': ['owner'],
  /** The whole shop as one file. */
  'export:everything': ['owner'],
  'read:messages': ['owner', 'dispatcher'],
  'send:report': ['owner', 'dispatcher'],
  'look-up:refrigerant': ['owner', 'dispatcher', 'technician'],
  'read:refrigerant-book': ['owner', 'dispatcher'],
  'write:refrigerant-book': ['owner', 'dispatcher'],
  /** Clean, repair or replace: what is decided about a unit. */
  'decide:unit': ['owner'],
  'edit:self': ['owner', 'dispatcher', 'technician'],
  /** How one signs in. */
  'secure:self': ['owner', 'dispatcher', 'technician'],
} as const satisfies Record<string, readonly Role[]>;

export type Permission = keyof typeof GRANTS;
type Own = Extract<Permission, `${string}:own`>;
/** The permission that makes it anybody's. */
const WIDER: Record<Own, Permission> = { 'read:visit:own': 'read:visit', 'fill:visit:own': 'fill:visit' };
const isOwn = (permission: Permission): permission is Own => Object.hasOwn(WIDER, permission);

const holds = (role: Role, permission: Permission): boolean => isOneOf<Role>(GRANTS[permission], role);
/** The roles that hold a permission. */
export const rolesWith = (permission: Permission): Role[] => ROLES.filter((role) => holds(role, permission));

/**
 * Whether the actor holds the permission. An `:own` permission with a resource also asks that the resource is the
 * actor's, unless the wider permission is held too.
 */
export function can(actor: Pick<Actor, 'role' | 'userId'>, permission: Permission, resource?: { ownerId: string | null }): boolean {
  if (!holds(actor.role, permission)) return false;
  if (!resource || !isOwn(permission)) return true;
  return holds(actor.role, WIDER[permission]) || resource.ownerId === actor.userId;
}
