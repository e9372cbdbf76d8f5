import 'server-only';
import { bookedMinutes } from '../../../core/jobs';
import { DEAD_LINK, wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import { refusedBy } from '../../../database/constraints';
import type { Db } from '../../../database/client';
import type { ChooseTime } from '../../../schemas/jobs/quotes';
import { tellShop } from '../../mail/verbs/tell-shop';
import { writeBooking } from '../../visits/verbs/write-booking';
import { afterAccepting, timesFor } from '../reads/offered-times';
import { quoteByLink, type PrintedQuote } from '../reads/quotes';
import { bookJob } from './book-job';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

type At = { db: Db; now: Date; baseUrl: string };
type Choice = Pick<ChooseTime, 'startsAt' | 'otherTime'>;

/** A customer who accepted by this link chooses when it is done, or asks for another time. @throws AppError not_found | conflict */
export async function chooseTime(ctx: At, { token, ...choice }: ChooseTime): Promise<void> {
  const quote = await quoteByLink(ctx.db, token, ctx.now);
  if (!quote) throw new AppError('not_found', DEAD_LINK);
  await takeTime(ctx, quote, choice);
}

/**
 * Books the work of an accepted quote at one of the free times, confirmed since the kitchen chose it; or, where none
 * suits, puts the customer's words before the office.
 * @throws AppError conflict — the job stands elsewhere by now, or the time is taken
 */
export async function takeTime(ctx: At, quote: PrintedQuote, { startsAt, otherTime }: Choice): Promise<void> {
  const say = wordsIn(quote.job.kitchen.customer.language).quote.time;
  const next = await afterAccepting(ctx.db, quote, ctx.now);
  if (next?.step !== 'choose') throw new AppError('conflict', say.notNow);
  if (startsAt === undefined) await askOtherTime(ctx, quote, otherTime);
  else await bookTime(ctx, quote, startsAt, say.taken);
}

async function bookTime({ db, now, baseUrl }: At, quote: PrintedQuote, startsAt: number, taken: string): Promise<void> {
  const { job, answeredBy: byName } = quote;
  const slot = (await timesFor(db, quote, now)).find((s) => s.start === startsAt);
  if (!slot) throw new AppError('conflict', taken, 'startsAt');
  const units = job.units.map((u) => u.unit.name).join(', ');
  try {
    await db.$transaction(async (tx) => {
      const visitId = await writeBooking(
        tx,
        {
          kitchenId: job.kitchenId,
          technicianId: slot.technicianId,
          startsAt: new Date(slot.start),
          endsAt: new Date(slot.start + bookedMinutes(quote.lines) * 60_000),
          tasks: [],
          note: `Job ${job.number}: ${job.what}${units ? `\nUnits: ${units}` : ''}`,
          reason: `Chosen by ${byName} on the quote’s page`,
          confirmed: true,
        },
        { actor: null, now, baseUrl },
      );
      await bookJob(tx, job, visitId, { actor: null, now, byName });
    });
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap') throw new AppError('conflict', taken, 'startsAt');
    throw e;
  }
}

async function askOtherTime({ db, now, baseUrl }: At, { job, answeredBy: byName }: PrintedQuote, message: string): Promise<void> {
  await db.$transaction(async (tx) => {
    await tx.job.update({ where: { id: job.id }, data: { timeAsked: message, version: { increment: 1 } } });
    await tx.jobEvent.create({ data: { jobId: job.id, at: now, kind: 'changed', reason: `Asks for another time: ${message}`, byName } });
    await tellShop(tx, now, {
      subject: `${fullKitchenName(job.kitchen)} asks for another time for job ${job.number}`,
      lines: [`${byName} accepted the quote for “${job.what}”.`, '', message, '', `${baseUrl}/jobs/${job.id}`],
    });
  });
}
