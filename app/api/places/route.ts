import { defineRoute } from '@/lib/server/doors/define-route';
import { env } from '@/lib/server/process/env';
import { placesAround } from '@/lib/features/kitchens/verbs/places-around';

/** What a map shows around the pin: the shop, its kitchens, and where its tiles come from. Asked for when a map is opened. */
export const GET = defineRoute('write:equipment', async (ctx) => {
  const { RIMEBOOK_MAP_TILES: url, RIMEBOOK_MAP_ATTRIBUTION: attribution, RIMEBOOK_MAP_ATTRIBUTION_LINK: link } = env();
  const tiles = url ? { url, attribution, link: link ?? null } : null;
  return Response.json({ tiles, ...(await placesAround(ctx)) }, { headers: { 'cache-control': 'no-store' } });
});
