import 'server-only';
import sharp from 'sharp';
import { AppError } from '../../../core/errors';
import type { Language } from '../../../core/customer-words';
import type { Db } from '../../../database/client';
import type { Pictures } from '../../../database/pictures/picture-store.mjs';
import { wholePicture } from '../../files/verbs/whole-picture';
import { customerReport, picturesOf, type ReportOnFile } from '../reads/customer-report';
import { pictureByLink, reportByLink } from '../reads/report-link';

export type PaperReport = ReportOnFile & { pictures: Map<string, Uint8Array> };

type Ctx = { db: Db; pictures: Pictures };
const notThere = () => new AppError('not_found', 'This link does not open.');

/** Many pictures are small ones: 120 of them stay under 5 MB. Longest side in pixels; on paper one is about 8 cm wide. */
const longestOf = (pictures: number) => (pictures <= 24 ? 1000 : 520);

async function forPaper(pictures: Pictures, files: { id: string; content: string }[]): Promise<Map<string, Uint8Array>> {
  const side = longestOf(files.length);
  const out = new Map<string, Uint8Array>();
  for (const { id, content } of files) {
    const small = sharp(await wholePicture(pictures, content)).resize({
      width: side,
      height: side,
      fit: 'inside',
      withoutEnlargement: true,
    });
    out.set(id, await small.jpeg({ quality: 68 }).toBuffer());
  }
  return out;
}

async function paper({ db, pictures }: Ctx, visitId: string, language?: Language): Promise<PaperReport> {
  const onFile = await customerReport(db, visitId, language);
  if (!onFile) throw notThere();
  const ids = onFile.report.units.flatMap((u) => [...u.photos.before, ...u.photos.after]);
  return { ...onFile, pictures: await forPaper(pictures, await picturesOf(db, ids)) };
}

/** The report with its pictures, for whoever has the link. @throws AppError not_found */
export async function paperByLink(ctx: Ctx & { now: Date }, token: string): Promise<PaperReport> {
  const link = await reportByLink(ctx.db, token, ctx.now);
  if (!link) throw notThere();
  return paper(ctx, link.visitId, link.language);
}

/** The same for the office. @throws AppError not_found */
export const paperOfVisit = (ctx: Ctx, visitId: string, language?: Language) => paper(ctx, visitId, language);

/** @throws AppError not_found */
export async function pictureOfReport({ db, now, pictures }: Ctx & { now: Date }, token: string, fileId: string) {
  const picture = await pictureByLink(db, token, fileId, now);
  if (!picture) throw notThere();
  return { mime: picture.mime, bytes: await wholePicture(pictures, picture.content) };
}
