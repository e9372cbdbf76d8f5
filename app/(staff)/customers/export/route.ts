import { csvAnswer } from '@/lib/server/answers/csv-answer';
import { defineRoute } from '@/lib/server/doors/define-route';
import { exportFleet, exportName } from '@/lib/features/fleet-csv/verbs/export-fleet';

export const GET = defineRoute('export:equipment', async ({ db, actor, now }) =>
  csvAnswer(await exportName({ db, now }), exportFleet({ db, actor })),
);
