import 'server-only';
import type { Tx } from '../../../database/client';
import { TO_LOOK_AT } from '../../entries/reads/questioned';
import { askedOnPages } from '../../jobs/reads/asked-on-pages';

export type OfficeFrame = {
  /** No visit was ever booked: the first day's list still stands. */
  firstDay: boolean;
  /** Jobs that customers wrote on their pages and nobody took up. */
  asked: number;
  /** Entries that nobody in the office has looked at. */
  waiting: number;
};

/** What stands in the head of every page of the office, in one statement. */
export async function officeFrame(db: Tx, now: Date): Promise<OfficeFrame> {
  const [row] = await db.$queryRaw<OfficeFrame[]>`
    SELECT NOT EXISTS (SELECT FROM "Visit") AS "firstDay", (${askedOnPages(now)}) AS asked, (${TO_LOOK_AT}) AS waiting`;
  return row ?? { firstDay: true, asked: 0, waiting: 0 };
}
