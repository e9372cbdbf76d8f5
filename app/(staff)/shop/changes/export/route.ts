import { todayIn } from '@/lib/core/calendar';
import { exportChanges } from '@/lib/features/audit/verbs/export-changes';
import { csvAnswer } from '@/lib/server/answers/csv-answer';
import { defineRoute } from '@/lib/server/doors/define-route';

/** Who changed what, as CSV. */
export const GET = defineRoute('export:everything', ({ db, now }) =>
  Promise.resolve(csvAnswer(`changes-${todayIn('UTC', now.getTime())}.csv`, exportChanges({ db }))),
);
