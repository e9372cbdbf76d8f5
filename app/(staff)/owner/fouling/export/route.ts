import { exportRanking } from '@/lib/features/owner/verbs/export-ranking';
import { csvFile } from '@/lib/server/answers/csv-answer';
import { defineRoute } from '@/lib/server/doors/define-route';

/** The ranking as it stands in the address, as CSV. */
export const GET = defineRoute('read:fouling', async ({ db, now, request }) =>
  csvFile('fouling.csv', await exportRanking({ db, now }, Object.fromEntries(new URL(request.url).searchParams))),
);
