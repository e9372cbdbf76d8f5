import type { Role } from './access';

/** Each role's own first screen. */
export const FIRST_SCREEN: Record<Role, string> = { owner: '/owner', dispatcher: '/due', technician: '/round' };
