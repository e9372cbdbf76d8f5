import { AppError } from '@/lib/core/errors';
import { CHUNK_BYTES } from '@/lib/core/tablet';
import { UploadAsked, UploadPiece } from '@/lib/schemas/tablet/files';
import { defineRoute } from '@/lib/server/doors/define-route';
import { pictures } from '@/lib/server/process/pictures';
import { readBytes } from '@/lib/server/doors/read-json';
import { takePiece, uploadState } from '@/lib/features/files/verbs/upload';

export const dynamic = 'force-dynamic';

const query = (request: Request) => Object.fromEntries(new URL(request.url).searchParams);
const WRONG = 'Which picture, and how many pieces? A picture may have at most 16 MB.';

/** Which pieces of a picture have arrived. */
export const GET = defineRoute('fill:visit:own', async (ctx) => {
  const asked = UploadAsked.safeParse(query(ctx.request));
  if (!asked.success) throw new AppError('invalid', WRONG);
  return Response.json(await uploadState(ctx, asked.data), { headers: { 'cache-control': 'no-store' } });
});

/** One piece of a picture. */
export const PUT = defineRoute('fill:visit:own', async (ctx) => {
  const piece = UploadPiece.safeParse(query(ctx.request));
  if (!piece.success) throw new AppError('invalid', WRONG);
  return Response.json(await takePiece({ ...ctx, pictures: pictures() }, piece.data, await readBytes(ctx.request, CHUNK_BYTES)));
});
