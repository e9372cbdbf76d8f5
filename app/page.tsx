import { redirect } from 'next/navigation';
import { FIRST_SCREEN } from '@/lib/core/people/first-screen';
import { anyoneOnFile } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/define-page';

export default definePage('public', async ({ db, actor }) => {
  if (actor) redirect(FIRST_SCREEN[actor.role]);
  redirect((await anyoneOnFile(db)) ? '/sign-in' : '/set-up');
});
