import 'server-only';
import type { Actor } from '../../../core/people/access';
import type { ServiceContext } from '../../context';

/** Whether the person's tablet may tell where it is at an arrival. */
export async function setMyArrivals(
  { db, actor }: Omit<ServiceContext, 'actor'> & { actor: Pick<Actor, 'userId'> },
  sharesArrivals: boolean,
): Promise<void> {
  await db.user.update({ where: { id: actor.userId }, data: { sharesArrivals } });
}
