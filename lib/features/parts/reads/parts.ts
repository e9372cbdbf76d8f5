import 'server-only';
import type { Tx } from '../../../database/client';

/** The shop's parts that are on file, by number. */
export const partsOnFile = (db: Tx) => db.part.findMany({ where: { archivedAt: null }, orderBy: { number: 'asc' } });
