import { QuotePaper } from '@/app/_ui/quote/quote-paper';
import { printQuote } from '@/lib/features/jobs/verbs/print-quote';
import { defineRoute } from '@/lib/server/doors/define-route';
import { pictures } from '@/lib/server/process/pictures';
import { onPaper, pdfFile } from '@/lib/server/papers/pdf';

export const dynamic = 'force-dynamic';

/** A quote on paper, for the office. */
export const GET = defineRoute('read:job', async ({ db, params }) => {
  const onFile = await printQuote({ db, pictures: pictures() }, params.id);
  return pdfFile(<QuotePaper {...await onPaper(onFile, onFile.language)} />, onFile.file);
});
