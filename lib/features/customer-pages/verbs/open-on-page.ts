import 'server-only';
import type { Language } from '../../../core/customer-words';
import { isId } from '../../../core/ids/is-id';
import type { Db } from '../../../database/client';
import type { Pictures } from '../../../database/pictures/picture-store.mjs';
import { wholePicture } from '../../files/verbs/whole-picture';
import { paperOfVisit, type PaperReport } from '../../reports/verbs/open-report';
import { quarterReport, type QuarterPaper } from '../../quarters/reads/quarter-report';
import { pictureOnPage, quarterOnPage, reportOnPage } from '../reads/on-page';
import { deadLink, holding } from './holding';

type At = { db: Db; now: Date };

/** A report of the page with its pictures. @throws AppError not_found */
export async function paperOnPage(
  { db, now, pictures }: At & { pictures: Pictures },
  { token, visitId, language }: { token: string; visitId: string; language: Language | undefined },
): Promise<PaperReport> {
  const page = await holding(db, token, now);
  if (!isId(visitId) || !(await reportOnPage(db, page, visitId))) throw deadLink();
  return paperOfVisit({ db, pictures }, visitId, language ?? page.language);
}

/** The summary of a quarter that stands on the page. @throws AppError not_found */
export async function quarterPaperOnPage(
  { db, now }: At,
  { token, quarter: on, language }: { token: string; quarter: string | undefined; language: Language | undefined },
): Promise<QuarterPaper> {
  const page = await holding(db, token, now);
  const quarter = await quarterOnPage(db, page, on);
  const onFile = quarter && (await quarterReport(db, page.customer.id, quarter, { now, language: language ?? page.language }));
  if (!onFile) throw deadLink();
  return onFile;
}

/** A picture of a report of the page. @throws AppError not_found */
export async function pictureOfPage(
  { db, now, pictures }: At & { pictures: Pictures },
  { token, fileId }: { token: string; fileId: string },
) {
  const page = await holding(db, token, now);
  const picture = isId(fileId) ? await pictureOnPage(db, page, fileId) : null;
  if (!picture) throw deadLink();
  return { mime: picture.mime, bytes: await wholePicture(pictures, picture.content) };
}
