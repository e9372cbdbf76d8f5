import { AppError } from '@/lib/core/errors';
import { isId } from '@/lib/core/ids/is-id';
import { defineRoute } from '@/lib/server/doors/define-route';
import { readPlan } from '@/lib/features/planning/verbs/read-plan';

export const GET = defineRoute('plan:week', async (ctx) => {
  const { id } = ctx.params;
  if (!isId(id)) throw new AppError('not_found', 'That proposal is not on file.');
  return Response.json(await readPlan(ctx, id), { headers: { 'cache-control': 'no-store' } });
});
