import type { Metadata } from 'next';
import { redirect } from 'next/navigation';
import { anyoneOnFile } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/doors/define-page';
import { Mark } from '@/app/_ui/page/mark';
import { SetUpForm } from './_components/set-up-form';

export const metadata: Metadata = { title: 'Set up the shop' };

export default definePage('public', async ({ db }) => {
  if (await anyoneOnFile(db)) redirect('/sign-in');
  return (
    <main className="mx-auto flex min-h-dvh max-w-lg flex-col justify-center gap-6 px-5 py-10">
      <p className="flex items-center gap-3 text-2xl font-bold text-cold">
        <Mark className="size-10" /> Rimebook
      </p>
      <div>
        <h1>Set up the shop</h1>
        <p className="mt-1 text-soft">Nobody is on file yet. This makes the shop and its first owner; it can be done once.</p>
      </div>
      <SetUpForm />
    </main>
  );
});
