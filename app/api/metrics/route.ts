import { timingSafeEqual } from 'node:crypto';
import { AppError } from '@/lib/core/errors';
import { defineRoute } from '@/lib/server/doors/define-route';
import { env } from '@/lib/server/process/env';
import { numbers } from '@/lib/server/process/health';

export const dynamic = 'force-dynamic';

function holds(given: string, token: string | undefined): boolean {
  const wanted = Buffer.from(`Bearer ${token ?? ''}`);
  const said = Buffer.from(given);
  return token !== undefined && said.length === wanted.length && timingSafeEqual(said, wanted);
}

/** For a monitor that has the token; nobody else learns that there is such a page. No personal data. */
export const GET = defineRoute('public', async ({ request }) => {
  if (!holds(request.headers.get('authorization') ?? '', env().RIMEBOOK_METRICS_TOKEN))
    throw new AppError('not_found', 'There is nothing at this address.');
  const { text, contentType } = await numbers();
  return new Response(text, { headers: { 'content-type': contentType } });
});
