import { pictureOfPage } from '@/lib/features/customer-pages/verbs/open-on-page';
import { pictures } from '@/lib/server/process/pictures';
import { defineRoute } from '@/lib/server/doors/define-route';
import { pictureFile } from '@/lib/server/answers/picture-file';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

/** Far more than the reports of a page have, and too few to guess at. */
const MOST = 1000;

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report-picture', MOST);
  return pictureFile(await pictureOfPage({ db, now, pictures: pictures() }, { token: params.token ?? '', fileId: params.picture ?? '' }));
});
