import { AppError } from '@/lib/core/errors';
import { Arrivals } from '@/lib/schemas/customers/kitchens';
import { defineRoute } from '@/lib/server/doors/define-route';
import { readJson } from '@/lib/server/doors/read-json';
import { tellArrivals } from '@/lib/features/kitchens/verbs/arrivals';

const MOST_BYTES = 100_000;

/** Where a tablet was at its arrivals, if its person allows that; and whether they do. */
export const POST = defineRoute('fill:visit:own', async ({ db, actor, now, request }) => {
  const parsed = Arrivals.safeParse(await readJson(request, MOST_BYTES));
  if (!parsed.success) throw new AppError('invalid', 'What the tablet sent cannot be read.');
  await tellArrivals({ db, actor, now }, parsed.data);
  return new Response(null, { status: 204 });
});
