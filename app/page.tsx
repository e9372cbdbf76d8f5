import { redirect } from 'next/navigation';
import { roleInfo } from '@/lib/core/people/access';
import { anyoneOnFile } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/define-page';

export default definePage('public', async ({ db, actor }) => {
  if (actor) redirect(roleInfo(actor.role).firstScreen);
  redirect((await anyoneOnFile(db)) ? '/sign-in' : '/set-up');
});
