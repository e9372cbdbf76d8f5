import 'server-only';
import type { Tx } from '../../../database/client';

/** Kinds of task in their order. */
export const taskKinds = (db: Tx, o: { activeOnly?: boolean } = {}) =>
  db.taskKind.findMany({ where: o.activeOnly ? { active: true } : {}, orderBy: [{ sort: 'asc' }, { key: 'asc' }] });
