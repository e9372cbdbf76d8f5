import type { Metadata } from 'next';
import { signInFacts } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/doors/define-page';
import { newSecret, qrPath } from '@/lib/server/people/authenticator';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { DropForm, SecondStepForm } from './_components/second-step-form';

export const metadata: Metadata = { title: 'Second step' };

export default definePage('secure:self', async ({ db, actor }) => {
  const me = await signInFacts(db, actor.userId);
  const fresh = newSecret(me.email);
  return (
    <>
      <Trail items={[{ href: '/me', label: 'My settings' }]} />
      <PageHead
        title="Second step at signing in"
        lead="A code of six digits that an authenticator on your telephone shows, beside the password: whoever learns the password alone does not get in."
      />
      <Sheet className="max-w-2xl">
        {me.secondStep ? <DropForm spare={me.spareCodes} /> : <SecondStepForm secret={fresh.secret} picture={qrPath(fresh.address)} />}
      </Sheet>
    </>
  );
});
