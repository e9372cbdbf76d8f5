import type { Metadata } from 'next';
import Link from 'next/link';
import { redirect } from 'next/navigation';
import { roleInfo } from '@/lib/core/people/access';
import { definePage } from '@/lib/server/doors/define-page';
import { onward } from '@/lib/server/doors/guard';
import { Mark } from '@/app/_ui/page/mark';
import { SignInForm } from './_components/sign-in-form';

export const metadata: Metadata = { title: 'Sign in' };

export default definePage('public', async ({ actor, query }) => {
  if (actor) redirect(onward(query.to, roleInfo(actor.role).firstScreen));
  return (
    <main className="mx-auto flex min-h-dvh max-w-sm flex-col justify-center gap-6 px-5 py-10">
      <p className="flex items-center gap-3 text-2xl font-bold text-cold">
        <Mark className="size-10" /> Rimebook
      </p>
      <h1>Sign in</h1>
      <SignInForm to={onward(query.to, '/')} />
      <p className="text-sm text-soft">
        <Link href="/sign-in/forgotten">Forgotten password</Link>. No sign-in yet? The shop&rsquo;s owner can put you on file.
      </p>
    </main>
  );
});
