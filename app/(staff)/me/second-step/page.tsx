import type { Metadata } from 'next';
import { anOwnerHasStep, signInFacts } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/doors/define-page';
import { onward } from '@/lib/server/doors/guard';
import { newSecret, qrPath } from '@/lib/server/people/authenticator';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { DropForm, GoOnWithout, SecondStepForm } from './_components/second-step-form';

export const metadata: Metadata = { title: 'Second step' };

export default definePage('secure:self', async ({ db, actor, query }) => {
  const me = await signInFacts(db, actor.userId);
  const fresh = newSecret(me.email);
  const asked = query.to !== undefined && !me.secondStep;
  const to = query.to === undefined ? null : onward(query.to, '/me');
  return (
    <>
      <Trail items={[{ href: '/me', label: 'My settings' }]} />
      <PageHead
        title="Second step at signing in"
        lead={
          asked
            ? 'What comes next is for owners alone, and this shop asks them for more than a password first. Add a code of six digits that an authenticator on your telephone shows; it takes a minute.'
            : 'A code of six digits that an authenticator on your telephone shows, beside the password: whoever learns the password alone does not get in.'
        }
      />
      <Sheet className="max-w-2xl">
        {me.secondStep ? (
          <DropForm spare={me.spareCodes} />
        ) : (
          <SecondStepForm secret={fresh.secret} picture={qrPath(fresh.address)} to={to} />
        )}
      </Sheet>
      {asked && to !== null && !(await anOwnerHasStep(db)) ? <GoOnWithout to={to} /> : null}
    </>
  );
});
