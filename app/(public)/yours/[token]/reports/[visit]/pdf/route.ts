import { LANGUAGES } from '@/lib/core/customer-words';
import { paperOnPage } from '@/lib/features/customer-pages/verbs/open-on-page';
import { pictures } from '@/lib/server/process/pictures';
import { defineRoute } from '@/lib/server/doors/define-route';
import { paperFile } from '@/lib/server/papers/on-thread';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, request, params }) => {
  await throttle('report', 120);
  const asked = new URL(request.url).searchParams.get('language');
  const language = LANGUAGES.find((l) => l === asked);
  const onFile = await paperOnPage({ db, now, pictures: pictures() }, { token: params.token ?? '', visitId: params.visit ?? '', language });
  return paperFile({ kind: 'report', onFile, language: onFile.report.language }, 'report');
});
