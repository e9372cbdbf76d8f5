import { LANGUAGES } from '@/lib/core/customer-words';
import { AppError } from '@/lib/core/errors';
import { isId } from '@/lib/core/ids/is-id';
import { paperOfVisit } from '@/lib/features/reports/verbs/open-report';
import { pictures } from '@/lib/server/process/pictures';
import { defineRoute } from '@/lib/server/doors/define-route';
import { paperFile } from '@/lib/server/papers/on-thread';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('send:report', async ({ db, request, params }) => {
  if (!isId(params.id)) throw new AppError('not_found', 'That visit is not on file.');
  const asked = new URL(request.url).searchParams.get('language');
  const language = LANGUAGES.find((l) => l === asked);
  const onFile = await paperOfVisit({ db, pictures: pictures() }, params.id, language);
  return paperFile({ kind: 'report', onFile, language: onFile.report.language }, 'report');
});
