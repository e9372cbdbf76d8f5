import type { Metadata } from 'next';
import Link from 'next/link';
import { roleInfo } from '@/lib/core/people/access';
import { sharesArrivals, signInFacts, unitsOf } from '@/lib/features/people/reads/people';
import { goesToKitchens } from '@/lib/features/people/reads/visiting';
import { liveSessions } from '@/lib/features/people/reads/sessions';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/doors/define-page';
import { sessionLines } from '@/app/_ui/sessions/lines';
import { SessionList } from '@/app/_ui/sessions/session-list';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { endMySession } from './actions';
import { ArrivalsForm } from './_components/arrivals-form';
import { MyPasswordForm, UnitsForm } from './_components/my-forms';

export const metadata: Metadata = { title: 'My settings' };

export default definePage('edit:self', async ({ db, actor, now }) => {
  const [units, facts, sessions, zone, arrivals, visits] = await Promise.all([
    unitsOf(db, actor.userId),
    signInFacts(db, actor.userId),
    liveSessions(db, actor.userId, now),
    shopTimeZone(db),
    sharesArrivals(db, actor.userId),
    goesToKitchens(db, actor.userId),
  ]);
  return (
    <>
      <PageHead title={actor.name} lead={`${roleInfo(actor.role).label}. Name, role and skills are kept by the owner under People.`} />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-2">
        <Sheet title="Units I read and type in">
          <UnitsForm units={units} />
        </Sheet>
        <Sheet title="Password">
          <MyPasswordForm />
          <p className="mt-4">
            <Link href="/me/second-step">{facts.secondStep ? 'Second step at signing in: on' : 'Add a second step at signing in'}</Link>
            {!facts.secondStep && actor.role === 'owner' ? <span className="text-soft">. Whoever is owner should have one.</span> : null}
          </p>
          <p className="mt-2 text-sm text-soft">
            Asked whether it is you? <Link href="/me/prove">Give the password once more</Link>.
          </p>
        </Sheet>
        {visits ? (
          <Sheet title="Where kitchens are">
            <ArrivalsForm shares={arrivals ?? false} />
          </Sheet>
        ) : null}
        <Sheet title="Where I am signed in" className="lg:col-span-2">
          <SessionList sessions={sessionLines(sessions, actor.sessionId)} timeZone={zone} action={endMySession} />
        </Sheet>
      </div>
    </>
  );
});
