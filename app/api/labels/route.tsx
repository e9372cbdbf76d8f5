import { z } from 'zod';
import { AppError } from '@/lib/core/errors';
import { defineRoute } from '@/lib/server/doors/define-route';
import { env } from '@/lib/server/process/env';
import { onPaper, pdfFile } from '@/lib/server/papers/pdf';
import { readLabels } from '@/lib/features/equipment/verbs/read-labels';
import { LabelSheetDocument } from './_components/label-sheet';

export const dynamic = 'force-dynamic';

const Asked = z.object({ kitchen: z.uuid(), unit: z.uuid().optional() });

/** Labels with QR codes to cut out and stick on: /api/labels?kitchen=…[&unit=…] */
export const GET = defineRoute('read:equipment', async ({ db, request }) => {
  const asked = Asked.safeParse(Object.fromEntries(new URL(request.url).searchParams));
  if (!asked.success) throw new AppError('invalid', 'Which kitchen’s labels?');
  const sheet = await readLabels({ db }, { kitchenId: asked.data.kitchen, unitId: asked.data.unit });
  const base = env().NEXTAUTH_URL.replace(/\/$/, '');
  // What is scanned names the tag as it is on file; what is read is put in letters that the font has.
  const { onFile, missing } = await onPaper({ labels: sheet.labels }, 'en');
  const codes = sheet.labels.map((label) => `${base}/round#/tag/${encodeURIComponent(label.tag)}`);
  const name = sheet.kitchen.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/[^\x20-\x7e]/g, '_');
  return pdfFile(
    <LabelSheetDocument
      title={`Labels, ${sheet.kitchen}`}
      labels={onFile.labels.map((label, i) => ({ ...label, address: codes[i] ?? base }))}
      missing={missing}
    />,
    `labels-${name}`,
  );
});
