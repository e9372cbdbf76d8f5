import { z } from 'zod';
import { AppError } from '@/lib/core/errors';
import { defineRoute } from '@/lib/server/doors/define-route';
import { env } from '@/lib/server/process/env';
import { paperFile } from '@/lib/server/papers/on-thread';
import { readLabels } from '@/lib/features/equipment/verbs/read-labels';

export const dynamic = 'force-dynamic';

const Asked = z.object({ kitchen: z.uuid(), unit: z.uuid().optional() });

/** Labels with QR codes to cut out and stick on: /api/labels?kitchen=…[&unit=…] */
export const GET = defineRoute('read:equipment', async ({ db, request }) => {
  const asked = Asked.safeParse(Object.fromEntries(new URL(request.url).searchParams));
  if (!asked.success) throw new AppError('invalid', 'Which kitchen’s labels?');
  const sheet = await readLabels({ db }, { kitchenId: asked.data.kitchen, unitId: asked.data.unit });
  const base = env().NEXTAUTH_URL.replace(/\/$/, '');
  const labels = sheet.labels.map((label) => ({ ...label, address: `${base}/round#/tag/${encodeURIComponent(label.tag)}` }));
  const name = sheet.kitchen.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/[^\x20-\x7e]/g, '_');
  return paperFile({ kind: 'labels', title: `Labels, ${sheet.kitchen}`, labels }, `labels-${name}`);
});
