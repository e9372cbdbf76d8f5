import 'server-only';
import sharp from 'sharp';
import { AppError } from '../../../core/errors';
import type { Language } from '../../../core/customer-words';
import type { Db } from '../../../database/client';
import { customerReport, picturesOf, type ReportOnFile } from '../reads/customer-report';
import { pictureByLink, reportByLink } from '../reads/report-link';

export type PaperReport = ReportOnFile & { pictures: Map<string, Uint8Array> };

const notThere = () => new AppError('not_found', 'This link does not open.');

/** Many pictures are small ones: 120 of them stay under 5 MB. Longest side in pixels; on paper one is about 8 cm wide. */
const longestOf = (pictures: number) => (pictures <= 24 ? 1000 : 520);

async function forPaper(pictures: Map<string, Uint8Array>): Promise<Map<string, Uint8Array>> {
  const side = longestOf(pictures.size);
  const out = new Map<string, Uint8Array>();
  for (const [id, bytes] of pictures)
    out.set(
      id,
      await sharp(bytes).resize({ width: side, height: side, fit: 'inside', withoutEnlargement: true }).jpeg({ quality: 68 }).toBuffer(),
    );
  return out;
}

async function paper(db: Db, visitId: string, language?: Language): Promise<PaperReport> {
  const onFile = await customerReport(db, visitId, language);
  if (!onFile) throw notThere();
  const ids = onFile.report.units.flatMap((u) => [...u.photos.before, ...u.photos.after]);
  return { ...onFile, pictures: await forPaper(await picturesOf(db, ids)) };
}

/** The report with its pictures, for whoever has the link. @throws AppError not_found */
export async function paperByLink({ db, now }: { db: Db; now: Date }, token: string): Promise<PaperReport> {
  const link = await reportByLink(db, token, now);
  if (!link) throw notThere();
  return paper(db, link.visitId, link.language);
}

/** The same for the office. @throws AppError not_found */
export const paperOfVisit = ({ db }: { db: Db }, visitId: string, language?: Language) => paper(db, visitId, language);

/** @throws AppError not_found */
export async function pictureOfReport({ db, now }: { db: Db; now: Date }, token: string, fileId: string) {
  const picture = await pictureByLink(db, token, fileId, now);
  if (!picture) throw notThere();
  return picture;
}
