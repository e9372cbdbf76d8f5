import { z } from 'zod';
import { AppError } from '@/lib/core/errors';
import { pictureOfReport } from '@/lib/features/reports/verbs/open-report';
import { pictures } from '@/lib/server/process/pictures';
import { defineRoute } from '@/lib/server/doors/define-route';
import { pictureFile } from '@/lib/server/answers/picture-file';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

/** Far more than one report has, and too few to guess at. */
const MOST = 1000;

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report-picture', MOST);
  const id = z.uuid().safeParse(params.picture);
  if (!id.success) throw new AppError('not_found', 'This link does not open.');
  return pictureFile(await pictureOfReport({ db, now, pictures: pictures() }, params.token ?? '', id.data));
});
