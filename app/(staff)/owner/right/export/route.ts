import { exportLooks } from '@/lib/features/owner/verbs/export-looks';
import { csvFile } from '@/lib/server/answers/csv-answer';
import { defineRoute } from '@/lib/server/doors/define-route';

/** The looks behind “Is it right?”, of the days in the address, as CSV. */
export const GET = defineRoute('read:fouling', async ({ db, now, request }) =>
  csvFile('looks.csv', await exportLooks({ db, now }, Object.fromEntries(new URL(request.url).searchParams))),
);
