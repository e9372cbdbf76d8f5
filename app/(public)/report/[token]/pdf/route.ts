import { paperByLink } from '@/lib/features/reports/verbs/open-report';
import { pictures } from '@/lib/server/process/pictures';
import { defineRoute } from '@/lib/server/doors/define-route';
import { paperFile } from '@/lib/server/papers/on-thread';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report', 120);
  const onFile = await paperByLink({ db, now, pictures: pictures() }, params.token ?? '');
  return paperFile({ kind: 'report', onFile, language: onFile.report.language }, 'report');
});
