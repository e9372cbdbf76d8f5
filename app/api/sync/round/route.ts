import { z } from 'zod';
import { AppError } from '@/lib/core/errors';
import { defineRoute } from '@/lib/server/doors/define-route';
import { readRound } from '@/lib/features/tablet/verbs/round';

export const dynamic = 'force-dynamic';

const Asked = z.object({
  device: z.uuid(),
  holder: z.uuid().optional(),
  name: z.string().max(120).default(''),
  app: z.string().max(40).default(''),
  cursor: z.string().max(20_000).default(''),
});

export const GET = defineRoute('fill:visit:own', async ({ db, actor, now, request }) => {
  const asked = Asked.safeParse(Object.fromEntries(new URL(request.url).searchParams));
  if (!asked.success) throw new AppError('invalid', 'Which tablet is asking?');
  const { device, holder, name, app, cursor } = asked.data;
  return new Response(await readRound({ db, actor, now }, { id: device, holder, name, appVersion: app }, cursor), {
    headers: { 'content-type': 'application/json', 'cache-control': 'no-store' },
  });
});
