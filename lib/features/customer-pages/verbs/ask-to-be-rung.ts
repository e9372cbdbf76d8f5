import 'server-only';
import { wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import { JOB_URGENCY_LABEL } from '../../../core/jobs';
import type { Db } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { AskToBeRung } from '../../../schemas/customers/customer-pages';
import { openJobs } from '../../jobs/verbs/open-job';
import { tellShop } from '../../mail/verbs/tell-shop';
import { holding } from './holding';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

/**
 * "Ring us about …": a job on the office's list, and a letter to the shop's own address. Sent twice (`once`), it is one.
 * @throws AppError not_found | conflict — the unit is no longer on file there
 */
export function askToBeRung(
  { db, now, baseUrl }: { db: Db; now: Date; baseUrl: string },
  { token, once, kitchenId, unitId, what, urgency, name, phone }: AskToBeRung,
): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const page = await holding(tx, token, now);
    const say = wordsIn(page.language).yours;
    const kitchen = page.kitchens.find((k) => k.id === kitchenId);
    if (!kitchen) throw new AppError('invalid', say.errors.kitchen, 'kitchenId');
    const unit = unitId ? await tx.unit.findFirst({ where: { id: unitId, kitchenId, archivedAt: null } }) : null;
    if (unitId && !unit) throw new AppError('conflict', say.ring.unitGone, 'unitId');
    await tx.$queryRaw`SELECT id FROM "CustomerPage" WHERE id = ${page.id}::uuid FOR UPDATE`;
    if ((await tx.job.count({ where: { id: once } })) > 0) return;
    await openJobs(
      tx,
      [
        {
          id: once,
          kitchenId,
          unitIds: unit ? [unit.id] : [],
          source: 'customer',
          urgency,
          what,
          note: `Written on the page of ${page.holder}.`,
          callerName: name,
          callerPhone: phone,
        },
      ],
      { by: null, at: now },
    );
    await tellShop(tx, now, {
      subject: `${fullKitchenName({ name: kitchen.name, customer: page.customer.name })} asks to be rung: ${JOB_URGENCY_LABEL[urgency].toLowerCase()}`,
      lines: [`${unit ? `${unit.name}: ` : ''}${what}`, '', `${name}, ${phone}`, '', `${baseUrl}/jobs/${once}`],
    });
  });
}
