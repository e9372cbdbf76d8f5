import { exportVisits } from '@/lib/features/owner/verbs/export-visits';
import { csvFile } from '@/lib/server/answers/csv-answer';
import { defineRoute } from '@/lib/server/doors/define-route';

/** The visits behind the shop’s figures, of the days in the address, as CSV. */
export const GET = defineRoute('read:fouling', async ({ db, now, request }) =>
  csvFile('visits.csv', await exportVisits({ db, now }, Object.fromEntries(new URL(request.url).searchParams))),
);
