import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { addDays, instantOf, todayIn } from '@/lib/core/calendar';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { can } from '@/lib/core/people/access';
import { planRun } from '@/lib/features/planning/reads/plan-run';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { drivesBefore } from '@/lib/features/visits/reads/drives-before';
import { bookableTechnicians, visitsBetween } from '@/lib/features/visits/reads/visits';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead } from '@/app/_ui/page/sheet';
import { dayWords } from '@/lib/core/calendar/when';
import { sentWeek } from '../../_components/sent-week';
import { gridRows, weekItems } from '../../_components/week-items';
import { ProposalView } from './_components/proposal-view';

export const metadata: Metadata = { title: 'Proposal' };

export default definePage('plan:week', async ({ db, now, params, actor }) => {
  const run = await planRun(db, params.id);
  if (!run) notFound();
  const monday = toLocalDate(run.weekStart);
  const shop = await shopSettings(db);
  const timeZone = shop?.timeZone ?? 'UTC';
  const days = Array.from({ length: 7 }, (_, i) => addDays(monday, i));
  const instant = (d: typeof monday) => new Date(instantOf(d, '00:00', timeZone));
  const [all, technicians] = await Promise.all([visitsBetween(db, instant(monday), instant(addDays(monday, 7))), bookableTechnicians(db)]);
  const visits = all.filter((v) => v.status !== 'cancelled');
  return (
    <>
      <PageHead
        title={`Proposal for the week of ${dayWords(monday)}`}
        lead="What is due and not booked, put on people, days and times. Booked visits stay. Nothing is booked until you accept."
        actions={<ButtonLink href={`/week?day=${monday}`}>The week</ButtonLink>}
      />
      <ProposalView
        runId={run.id}
        monday={monday}
        week={{
          days,
          today: todayIn(timeZone, now.getTime()),
          timeZone,
          currency: shop?.currency ?? 'USD',
          rows: gridRows(technicians, visits, days),
          keepsShop: can(actor, 'manage:shop') && can(actor, 'manage:people'),
          standing: sentWeek(weekItems(visits, await drivesBefore(db, visits), timeZone)),
        }}
      />
    </>
  );
});
