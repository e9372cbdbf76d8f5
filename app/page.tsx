import { redirect } from 'next/navigation';
import { FIRST_SCREEN } from '@/lib/core/people/first-screen';
import { definePage } from '@/lib/server/define-page';

export default definePage('public', async ({ db, actor }) => {
  if (actor) redirect(FIRST_SCREEN[actor.role]);
  redirect((await db.user.count()) === 0 ? '/set-up' : '/sign-in');
});
