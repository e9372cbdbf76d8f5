import 'server-only';
import { wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import type { AnswerVisit } from '../../../schemas/customers/customer-pages';
import { replyTo } from '../../links/verbs/reply';
import { visitOnPage } from '../reads/on-page';
import { holding } from './holding';

/** Confirms a visit on the page, or asks for one of its free times. @throws AppError not_found | conflict */
export async function answerVisit({ db, now }: { db: Db; now: Date }, input: AnswerVisit): Promise<void> {
  const page = await holding(db, input.token, now);
  const { another } = wordsIn(page.language).yours;
  const visit = await visitOnPage(db, page, input.visitId, now);
  if (!visit) throw new AppError('conflict', another.notBooked);
  await replyTo({ db, now }, visit.id, input, another.taken);
}
