import type { Metadata } from 'next';
import Link from 'next/link';
import { definePage } from '@/lib/server/doors/define-page';
import { ForgottenForm } from './_components/forgotten-form';

export const metadata: Metadata = { title: 'Forgotten password' };

export default definePage('public', () =>
  Promise.resolve(
    <main className="mx-auto flex min-h-dvh max-w-sm flex-col justify-center gap-6 px-5 py-10">
      <h1>Forgotten password</h1>
      <p className="text-soft">We send a link to your e-mail by which you choose a new one. It is good for an hour.</p>
      <ForgottenForm />
      <Link href="/sign-in">Back to sign-in</Link>
    </main>,
  ),
);
