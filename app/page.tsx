import { redirect } from 'next/navigation';
import { can, roleInfo } from '@/lib/core/people/access';
import { anyoneOnFile } from '@/lib/features/people/reads/people';
import { firstDay } from '@/lib/features/shop/reads/first-day';
import { definePage } from '@/lib/server/doors/define-page';

export default definePage('public', async ({ db, actor }) => {
  if (actor) redirect(can(actor, 'read:due') && (await firstDay(db)) ? '/first-day' : roleInfo(actor.role).firstScreen);
  redirect((await anyoneOnFile(db)) ? '/sign-in' : '/set-up');
});
