import type { Metadata } from 'next';
import { redirect } from 'next/navigation';
import { addDays, todayIn, weekdayOf } from '@/lib/core/calendar';
import { can, roleInfo } from '@/lib/core/people/access';
import { firstDay, type FirstDayStep } from '@/lib/features/shop/reads/first-day';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';

export const metadata: Metadata = { title: 'First day' };

const STEPS: Record<FirstDayStep['key'], { title: string; href: string; go: string; owner: boolean }> = {
  shop: { title: 'The shop', href: '/shop#position', go: 'Set its position', owner: true },
  costs: { title: 'Costs', href: '/shop#costs', go: 'Set the costs', owner: true },
  people: { title: 'People', href: '/people/new', go: 'Put a technician on file', owner: true },
  fleet: { title: 'Equipment', href: '/customers/import', go: 'Bring in a sheet', owner: false },
  positions: { title: 'Positions', href: '/customers/positions', go: 'Give positions', owner: false },
  week: { title: 'The first week', href: '/week', go: 'Look at the coming week', owner: false },
};

export default definePage('read:due', async ({ db, actor, now }) => {
  const steps = await firstDay(db);
  if (!steps) redirect(roleInfo(actor.role).firstScreen);
  const today = todayIn(await shopTimeZone(db), now.getTime());
  const nextMonday = addDays(today, 7 - weekdayOf(today));
  const next = steps.find((s) => !s.done)?.key;
  return (
    <>
      <PageHead
        title="First day"
        lead="From an empty shop to the first accepted week. This list goes away when the first visit is booked."
      />
      <ol className="flex flex-col gap-3">
        {steps.map((s, i) => {
          const step = STEPS[s.key];
          const href = s.key === 'week' ? `/week?day=${nextMonday}` : step.href;
          return (
            <li key={s.key}>
              <Sheet>
                <div className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2">
                  <div>
                    <h2>
                      {i + 1}. {step.title}
                    </h2>
                    <p className="text-soft">{s.text}</p>
                  </div>
                  <div className="flex items-center gap-4">
                    {s.done ? (
                      <State shape="done" tone="cold">
                        Done
                      </State>
                    ) : null}
                    {step.owner && !can(actor, 'manage:shop') ? (
                      <span className="text-soft">The owner does this.</span>
                    ) : (
                      <ButtonLink href={href} look={s.key === next ? 'primary' : 'plain'}>
                        {step.go}
                      </ButtonLink>
                    )}
                  </div>
                </div>
              </Sheet>
            </li>
          );
        })}
      </ol>
    </>
  );
});
