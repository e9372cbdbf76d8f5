import { printQuoteByLink } from '@/lib/features/jobs/verbs/print-quote';
import { defineRoute } from '@/lib/server/doors/define-route';
import { pictures } from '@/lib/server/process/pictures';
import { paperFile } from '@/lib/server/papers/on-thread';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

/** The same quote on paper, behind the same link. */
export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('link', 60);
  const onFile = await printQuoteByLink({ db, now, pictures: pictures() }, params.token);
  return paperFile({ kind: 'quote', onFile, language: onFile.language }, onFile.file);
});
