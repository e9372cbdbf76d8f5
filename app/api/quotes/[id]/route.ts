import { printQuote } from '@/lib/features/jobs/verbs/print-quote';
import { defineRoute } from '@/lib/server/doors/define-route';
import { pictures } from '@/lib/server/process/pictures';
import { paperFile } from '@/lib/server/papers/on-thread';

export const dynamic = 'force-dynamic';

/** A quote on paper, for the office. */
export const GET = defineRoute('read:job', async ({ db, params }) => {
  const onFile = await printQuote({ db, pictures: pictures() }, params.id);
  return paperFile({ kind: 'quote', onFile, language: onFile.language }, onFile.file);
});
