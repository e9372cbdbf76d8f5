import 'server-only';
import { AppError } from '../../../core/errors';
import { can, type Actor } from '../../../core/people/access';
import type { Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { OwnersCode } from '../../../schemas/people/people';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { anOwnerHasStep } from '../reads/people';

type Ctx = ServiceContext & { actor: Actor };

async function save(tx: Tx, { actor, now }: Ctx, ownersGiveCode: boolean): Promise<void> {
  await tx.shopSettings.update({ where: { id: 1 }, data: { ownersGiveCode } });
  await auditBy(tx, { actor, now }, {
    action: ownersGiveCode ? 'shop.step_asked' : 'shop.step_not_asked', entity: 'ShopSettings', entityId: '1',
  }); // prettier-ignore
}

/** Whether an owner without a second step is asked for one before people, roles and everything as one file. */
export const setOwnersCode = (ctx: Ctx, { ownersGiveCode }: OwnersCode): Promise<void> =>
  withinTransaction(ctx.db, (tx) => save(tx, ctx, ownersGiveCode));

/**
 * The way on for an owner who has no telephone at hand. Not once an owner signs in with a code: whoever learned a password alone
 * would turn the asking off.
 * @throws AppError not_allowed
 */
export function stopAskingOwners(ctx: Ctx): Promise<void> {
  return withinTransaction(ctx.db, async (tx) => {
    if (!can(ctx.actor, 'manage:people')) throw new AppError('not_allowed', 'Your sign-in does not open this.');
    if (await anOwnerHasStep(tx))
      throw new AppError('not_allowed', 'An owner signs in with a second step. Only an owner who does can turn this off, under People.');
    await save(tx, ctx, false);
  });
}
