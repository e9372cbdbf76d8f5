import 'server-only';
import { AppError } from '../../../core/errors';
import { toLocalDate } from '../../../core/calendar/date-column';
import { CHANGE_ANSWER_LABEL } from '../../../core/intervals/change-question';
import type { AnswerChange } from '../../../schemas/customers/kitchens';
import { withinTransaction } from '../../../database/transaction';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { keepChange } from './kitchen-changed';

/**
 * The office says what changed in a kitchen whose coils came out other than expected. A change is kept from the first look that spoke
 * for it; "nothing" leaves the beliefs to what is found, and the next question to new looks.
 * @throws AppError not_found | conflict — answered already
 */
export function answerChange({ db, actor, now }: ServiceContext, { id, answer }: AnswerChange): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const question = await tx.changeQuestion.findUnique({ where: { id } });
    if (!question) throw new AppError('not_found', 'That question is not on file.');
    const { count } = await tx.changeQuestion.updateMany({
      where: { id, answeredAt: null },
      data: { answer, answeredAt: now, answeredById: actor?.userId ?? null },
    });
    if (count === 0) throw new AppError('conflict', 'Somebody has answered this meanwhile.');
    const { kitchenId, breathes } = question;
    const since = toLocalDate(question.since);
    if (answer !== 'nothing') {
      await keepChange(tx, { actor, now }, { kitchenId, since, breathes, what: CHANGE_ANSWER_LABEL[answer] });
      return;
    }
    await auditBy(
      tx,
      { actor, now },
      { action: 'kitchen.change_denied', entity: 'Kitchen', entityId: kitchenId, detail: { since, breathes } },
    );
  });
}
