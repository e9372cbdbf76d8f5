import { printQuoteOnPage } from '@/lib/features/jobs/verbs/print-quote';
import { defineRoute } from '@/lib/server/doors/define-route';
import { pictures } from '@/lib/server/process/pictures';
import { paperFile } from '@/lib/server/papers/on-thread';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

/** A quote of the page on paper. */
export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('link', 60);
  const onFile = await printQuoteOnPage({ db, now, pictures: pictures() }, params);
  return paperFile({ kind: 'quote', onFile, language: onFile.language }, onFile.file);
});
