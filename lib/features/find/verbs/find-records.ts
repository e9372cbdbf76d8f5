import 'server-only';
import type { Tx } from '../../../database/client';
import { findRecords, type Hit } from '../reads/find';

/** What is on file under what was typed. */
export const find = ({ db }: { db: Tx }, typed: string): Promise<Hit[]> => findRecords(db, typed);
