import 'server-only';
import type { Actor } from '../../../core/people/access';
import type { MyUnits } from '../../../schemas/people/people';
import type { ServiceContext } from '../../context';

/** Units of measure that a person reads and types in. What is on file stays SI. */
export async function setMyUnits(
  { db, actor }: Omit<ServiceContext, 'actor'> & { actor: Pick<Actor, 'userId'> },
  input: MyUnits,
): Promise<void> {
  await db.user.update({ where: { id: actor.userId }, data: input });
}
