import { LANGUAGES } from '@/lib/core/customer-words';
import { quarterPaperOnPage } from '@/lib/features/customer-pages/verbs/open-on-page';
import { defineRoute } from '@/lib/server/doors/define-route';
import { paperFile } from '@/lib/server/papers/on-thread';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, request, params }) => {
  await throttle('report', 120);
  const asked = new URL(request.url).searchParams.get('language');
  const language = LANGUAGES.find((l) => l === asked);
  const onFile = await quarterPaperOnPage({ db, now }, { token: params.token ?? '', quarter: params.quarter, language });
  return paperFile({ kind: 'quarter', onFile, language: onFile.report.language }, 'summary');
});
