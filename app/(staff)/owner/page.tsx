import type { Metadata } from 'next';
import { can } from '@/lib/core/people/access';
import { todayIn } from '@/lib/core/calendar';
import { sumOf } from '@/lib/core/evidence';
import { fromLocalDate } from '@/lib/core/calendar/date-column';
import { overdueNow } from '@/lib/features/due/reads';
import { ruleChanges, unreadChanges } from '@/lib/features/owner/reads/changes';
import { coilsPastSaving, deadFans, openWork, recurrentDrains, unitsIn } from '@/lib/features/owner/reads/decisions';
import { policyOnFile } from '@/lib/features/evidence/reads/fouling';
import { foulingKitchens } from '@/lib/features/owner/reads/kitchens';
import { worthToday } from '@/lib/features/owner/reads/worth';
import { toLookAtAgain } from '@/lib/features/choices/reads/unit-facts';
import { cleaningPrices, OVERDUE_LIMIT_DAYS, shopSettings } from '@/lib/features/shop/reads/settings';
import { dbForLongReads } from '@/lib/server/process/long-reads';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Answers } from './_components/answers';
import { Decisions } from './_components/decisions';
import { FASTER_SLOWER, MorePages } from './_components/more-pages';
import { OwnerTabs } from './_components/owner-tabs';
import { LookAgain } from './_components/look-again';
import { KitchenTable } from './_components/kitchen-table';
import { Worth } from './_components/worth';

export const metadata: Metadata = { title: 'Owner' };

const PAGE = 30;
const DAY = 86_400_000;
/** Until somebody has set the shop up. */
const UNSET = { timeZone: 'UTC', currency: 'USD', overdueLimitDays: OVERDUE_LIMIT_DAYS };

export default definePage('read:fouling', async ({ now, actor, query }) => {
  const db = await dbForLongReads();
  const skip = Math.max(0, Math.floor(Number(query.from ?? 0)) || 0);
  const [shop, policy] = await Promise.all([shopSettings(db), policyOnFile(db)]);
  const { timeZone, currency, overdueLimitDays: limit } = shop ?? UNSET;
  const today = todayIn(timeZone, now.getTime());
  const prices = shop ? cleaningPrices(shop) : null;
  const [found, changes, unread, coils, fans, drains, work, overdue, weighed, again] = await Promise.all([
    foulingKitchens(db, now, { take: PAGE + 1, skip }),
    ruleChanges(db, { since: new Date(now.getTime() - 60 * DAY), unreadOnly: true, take: 4 }),
    unreadChanges(db),
    coilsPastSaving(db),
    deadFans(db),
    recurrentDrains(db, now),
    openWork(db, fromLocalDate(today)),
    overdueNow(db, now, limit),
    prices ? worthToday(db, now, prices, policy) : null,
    can(actor, 'decide:unit') ? toLookAtAgain(db, today) : [],
  ]);
  const kitchens = found.slice(0, PAGE);
  if (kitchens.length === 0) return <NothingYet />;
  return (
    <>
      <PageHead
        title="What fouls, what it costs, what to decide"
        actions={
          <>
            <ButtonLink href="/rules">Rule changes</ButtonLink>
            {can(actor, 'overrule:rules') ? <ButtonLink href="/rules/what-if">What if</ButtonLink> : null}
          </>
        }
      />
      <OwnerTabs at="/owner" />
      <Answers
        kitchens={kitchens}
        energy={sumOf(kitchens.map((k) => k.energy))}
        money={sumOf(kitchens.map((k) => k.money))}
        currency={currency}
        whole={skip === 0 && found.length <= PAGE}
        overdue={overdue}
        late={{ tasks: overdue.pastLimit, days: limit }}
        toDecide={{ failing: unitsIn(coils, fans, drains), changes: unread, late: work.late.length }}
      />
      <Worth weighed={weighed} prices={prices} failureChancePerDay={policy.failureChancePerDay} currency={currency} timeZone={timeZone} />
      <LookAgain list={again} />
      <div className="grid grid-cols-[minmax(0,1fr)] items-start gap-6 xl:grid-cols-[minmax(0,1fr)_22.5rem]">
        <Sheet
          title="Kitchens by how fast their coils foul"
          aside={<span className="text-sm text-soft">heat transfer lost, mean of a kitchen’s coils</span>}
        >
          <KitchenTable kitchens={kitchens} currency={currency} />
          <MorePages
            earlier={skip > 0 ? `/owner?from=${Math.max(0, skip - PAGE)}` : null}
            later={found.length > PAGE ? `/owner?from=${skip + PAGE}` : null}
            labels={FASTER_SLOWER}
          />
        </Sheet>
        <Decisions
          changes={changes}
          unread={unread}
          coils={coils}
          fans={fans}
          drains={drains}
          work={work}
          today={today}
          mayDecide={can(actor, 'overrule:rules')}
          maySettle={can(actor, 'write:job')}
        />
      </div>
    </>
  );
});

function NothingYet() {
  return (
    <>
      <PageHead title="Owner" />
      <Empty
        action={
          <ButtonLink href="/customers/import" look="primary">
            Bring in a sheet
          </ButtonLink>
        }
      >
        Here will stand which kitchens foul their coils fastest, what that costs a day, and what waits for your word. It starts with the
        first kitchens on file and fills with the first visits.
      </Empty>
    </>
  );
}
