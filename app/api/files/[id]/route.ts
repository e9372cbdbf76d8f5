import { z } from 'zod';
import { AppError } from '@/lib/core/errors';
import { defineRoute } from '@/lib/server/define-route';
import { readPicture } from '@/lib/services/files/read-picture';

export const dynamic = 'force-dynamic';

/** A picture never changes under its id. It is shown as a picture and as nothing else, on our own pages only. */
const SAFE = {
  'cache-control': 'private, max-age=31536000, immutable',
  'content-disposition': 'inline; filename="picture.jpg"',
  'content-security-policy': "default-src 'none'; sandbox",
  'cross-origin-resource-policy': 'same-origin',
  'x-content-type-options': 'nosniff',
};

export const GET = defineRoute('read:visit:own', async ({ db, actor, request, params }) => {
  const id = z.uuid().safeParse(params.id);
  if (!id.success) throw new AppError('not_found', 'That picture is not on file.');
  const size = new URL(request.url).searchParams.get('size') === 'thumb' ? 'thumb' : 'full';
  const { mime, bytes } = await readPicture({ db, actor }, id.data, size);
  return new Response(bytes, { headers: { 'content-type': mime, ...SAFE } });
});
