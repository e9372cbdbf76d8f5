import 'server-only';
import { LANGUAGES } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import { isLocalDate } from '../../../core/calendar';
import { isId } from '../../../core/ids/is-id';
import { quarterOf } from '../../../core/reports/quarter';
import type { Db } from '../../../database/client';
import { deadLink } from '../../customer-pages/verbs/holding';
import { quarterByLink, quarterReport, type QuarterPaper } from '../reads/quarter-report';

type At = { db: Db; now: Date };

/** The summary for whoever has its link. @throws AppError not_found */
export async function quarterPaperByLink({ db, now }: At, token: string): Promise<QuarterPaper> {
  const link = await quarterByLink(db, token, now);
  const onFile = link && (await quarterReport(db, link.customerId, link.quarter, { now, language: link.language }));
  if (!onFile) throw deadLink();
  return onFile;
}

/** The same for the office. @throws AppError not_found */
export async function quarterPaper(
  { db, now }: At,
  asked: { id?: string; on: string | null; language: string | null },
): Promise<QuarterPaper> {
  const language = LANGUAGES.find((l) => l === asked.language);
  const { id, on } = asked;
  const readable = isId(id) && on !== null && isLocalDate(on);
  const onFile = readable ? await quarterReport(db, id, quarterOf(on), { now, language }) : null;
  if (!onFile) throw new AppError('not_found', 'That customer is not on file.');
  return onFile;
}
