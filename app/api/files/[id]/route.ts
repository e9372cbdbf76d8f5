import { z } from 'zod';
import { AppError } from '@/lib/core/errors';
import { defineRoute } from '@/lib/server/doors/define-route';
import { pictures } from '@/lib/server/process/pictures';
import { readPicture } from '@/lib/features/files/verbs/read-picture';

export const dynamic = 'force-dynamic';

/** Shown as a picture and as nothing else, on our own pages only. Whether one may see it is asked each time: a tablet changes hands. */
const SAFE = {
  'cache-control': 'private, no-cache',
  'content-disposition': 'inline; filename="picture.jpg"',
  'content-security-policy': "default-src 'none'; sandbox",
  'cross-origin-resource-policy': 'same-origin',
  'x-content-type-options': 'nosniff',
};

export const GET = defineRoute('read:visit:own', async ({ db, actor, request, params }) => {
  const id = z.uuid().safeParse(params.id);
  if (!id.success) throw new AppError('not_found', 'That picture is not on file.');
  const size = new URL(request.url).searchParams.get('size') === 'thumb' ? 'thumb' : 'full';
  const { mime, bytes } = await readPicture({ db, actor, pictures: pictures() }, id.data, size);
  // A picture never changes under its id.
  const etag = `"${id.data}-${size}"`;
  const notChanged = request.headers.get('if-none-match') === etag;
  return new Response(notChanged ? null : bytes, { status: notChanged ? 304 : 200, headers: { 'content-type': mime, etag, ...SAFE } });
});
