import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '../../../../_ui/button';
import { PageHead } from '../../../../_ui/sheet';
import { dayWords } from '../../../../_ui/when';
import { ProposalView } from './_components/proposal-view';

export const metadata: Metadata = { title: 'Proposal' };

export default definePage('plan:week', async ({ db, params }) => {
  const run = /^[0-9a-f-]{36}$/i.test(params.id ?? '') ? await db.planRun.findUnique({ where: { id: params.id } }) : null;
  if (!run) notFound();
  const monday = run.weekStart.toISOString().slice(0, 10);
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
