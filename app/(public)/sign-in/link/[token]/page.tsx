import type { Metadata } from 'next';
import Link from 'next/link';
import { openPasswordLink } from '@/lib/features/people/reads/password-links';
import { definePage } from '@/lib/server/doors/define-page';
import { throttled } from '@/lib/server/doors/customer-links';
import { Notice } from '@/app/_ui/feedback/notice';
import { ChooseForm } from './_components/choose-form';

export const metadata: Metadata = { title: 'Choose a password', referrer: 'same-origin', robots: { index: false } };

export default definePage('public', async ({ db, now, params }) => {
  const token = params.token ?? '';
  // Tampered, used, expired: all alike, and guessing has an end.
  const link = (await throttled('password-link', 60)) ? null : await openPasswordLink(db, token, now);
  return (
    <main className="mx-auto flex min-h-dvh max-w-sm flex-col justify-center gap-6 px-5 py-10">
      {link ? (
        <>
          <h1>Choose a password</h1>
          <p className="text-soft">For {link.user.name}. Wherever you are signed in, you are signed out then.</p>
          <ChooseForm token={token} />
        </>
      ) : (
        <Notice title="This link does not open" action={<Link href="/sign-in/forgotten">Ask for a new one</Link>}>
          It may have been used, or be too old. Each opens once.
        </Notice>
      )}
    </main>
  );
});
