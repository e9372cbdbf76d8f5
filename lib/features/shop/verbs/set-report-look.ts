import 'server-only';
import sharp from 'sharp';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { ReportLook } from '../../../schemas/shop/shop';
import { staleError } from '../../audit/verbs/changes';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

const BOX = { width: 800, height: 300, fit: 'inside', withoutEnlargement: true } as const;
const MOST_PIXELS = 40_000_000;

/** The mark made anew: nothing survives but the picture. @throws AppError invalid */
async function asPng(file: File): Promise<Uint8Array<ArrayBuffer>> {
  try {
    const bytes = new Uint8Array(await file.arrayBuffer());
    const picture = sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error' });
    const { format } = await picture.metadata();
    if (!['png', 'jpeg', 'webp'].includes(format)) throw new Error(format);
    return new Uint8Array(await picture.rotate().resize(BOX).png({ palette: true }).toBuffer());
  } catch {
    throw new AppError('invalid', 'That is not a PNG, JPEG or WebP picture.', 'logo');
  }
}

/** Keeps the words and the mark that stand on reports. @throws AppError not_found | invalid | conflict: changed since `seen` */
export async function setReportLook(
  { db, actor, now }: ServiceContext,
  { seen, reportWords, logo, removeLogo }: ReportLook,
): Promise<void> {
  const logoPng = removeLogo ? null : logo && logo.size > 0 ? await asPng(logo) : undefined;
  await withinTransaction(db, async (tx) => {
    const shop = await tx.shopSettings.findUnique({ where: { id: 1 }, omit: { logoPng: true } });
    if (!shop) throw new AppError('not_found', 'The shop is not set up yet.');
    if (shop.updatedAt.toISOString() !== seen) throw await staleError(tx, 'ShopSettings', '1', 'the shop’s settings');
    await tx.shopSettings.update({ where: { id: 1 }, data: { reportWords, ...(logoPng === undefined ? {} : { logoPng }) } });
    await auditBy(tx, { actor, now }, { action: 'shop.report_look', entity: 'ShopSettings', entityId: '1' });
  });
}
