import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { planRun } from '@/lib/features/planning/reads/plan-run';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '../../../../_ui/button';
import { PageHead } from '../../../../_ui/sheet';
import { dayWords } from '@/lib/core/calendar/when';
import { ProposalView } from './_components/proposal-view';

export const metadata: Metadata = { title: 'Proposal' };

export default definePage('plan:week', async ({ db, params }) => {
  const run = await planRun(db, params.id);
  if (!run) notFound();
  const monday = toLocalDate(run.weekStart);
  return (
    <>
      <PageHead
        title={`Proposal for the week of ${dayWords(monday)}`}
        lead="What is due and not booked, put on people, days and times. Booked visits stay. Nothing is booked until you accept."
        actions={<ButtonLink href={`/week?day=${monday}`}>The week</ButtonLink>}
      />
      <ProposalView runId={run.id} monday={monday} />
    </>
  );
});
