import { AppError } from '@/lib/core/errors';
import { defineRoute } from '@/lib/server/define-route';
import { readPlan } from '@/lib/features/planning/verbs/read-plan';

export const GET = defineRoute('plan:week', async (ctx) => {
  if (!/^[0-9a-f-]{36}$/i.test(ctx.params.id ?? '')) throw new AppError('not_found', 'That proposal is not on file.');
  return Response.json(await readPlan(ctx, ctx.params.id!), { headers: { 'cache-control': 'no-store' } });
});
