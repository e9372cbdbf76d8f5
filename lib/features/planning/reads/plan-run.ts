import 'server-only';
import { isId } from '../../../core/ids/is-id';
import type { Tx } from '../../../database/client';

/** A run of the planner as it stands, or null. */
export const planRun = async (db: Tx, id: string | undefined) => (isId(id) ? db.planRun.findUnique({ where: { id } }) : null);
