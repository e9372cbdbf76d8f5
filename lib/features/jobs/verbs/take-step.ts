import 'server-only';
import { customerFullDate } from '../../../core/calendar/when';
import { todayIn } from '../../../core/calendar';
import { wordsIn } from '../../../core/customer-words';
import { STEP_INFO, stepsFrom } from '../../../core/jobs';
import { fullKitchenName } from '../../../core/wording/kitchen-name';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db, Tx } from '../../../database/client';
import type { JobStepTaken } from '../../../schemas/jobs/jobs';
import { shopSettings } from '../../shop/reads/settings';
import { goOn } from './go-on';

/**
 * What the office says happened to a job. A change that leaves the state alone is written down all the same.
 * @throws AppError not_found | invalid | conflict
 */
export async function takeStep(
  { db, actor, now }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date },
  input: JobStepTaken,
): Promise<void> {
  const { jobId, step, reason, from } = input;
  const { to, change = {}, why, label } = STEP_INFO[step];
  if (why && reason === '') throw new AppError('invalid', why, 'reason');
  await db.$transaction(async (tx) => {
    await tx.$queryRaw`SELECT id FROM "Job" WHERE id = ${jobId}::uuid FOR UPDATE`;
    const job = await tx.job.findUnique({ where: { id: jobId }, select: { id: true, state: true, needsQuote: true, partsWanted: true } });
    if (!job) throw new AppError('not_found', 'That job is not on file.');
    if (job.state !== from || !stepsFrom(job).includes(step))
      throw new AppError('conflict', 'Someone changed this job a moment ago. Load the page again.');
    if (to !== null && to !== job.state) {
      await goOn(tx, job, { to, reason, at: now, by: actor.userId, change });
      if (step === 'part_here') await writeOfTimes(tx, jobId, now);
      return;
    }
    await tx.job.update({ where: { id: jobId }, data: { ...change, version: { increment: 1 } } });
    if (step === 'part_here') await writeOfTimes(tx, jobId, now);
    const said = reason ? `${label}: ${reason}` : `${label}.`;
    await tx.jobEvent.create({ data: { jobId, at: now, kind: 'changed', reason: said, byUserId: actor.userId } });
  });
}

/** Tells whoever was sent the accepted quote that its page shows the free times now. Its link is known to them alone. */
async function writeOfTimes(tx: Tx, jobId: string, now: Date): Promise<void> {
  const quote = await tx.quote.findFirst({
    where: { jobId, answer: 'accepted', supersededAt: null, sentTo: { not: '' } },
    orderBy: { version: 'desc' },
    include: {
      job: {
        select: { what: true, kitchen: { select: { name: true, timeZone: true, customer: { select: { name: true, language: true } } } } },
      },
    },
  });
  if (!quote?.sentAt) return;
  const { what, kitchen } = quote.job;
  const { language } = kitchen.customer;
  const say = wordsIn(language).quote.partHere;
  const shop = await shopSettings(tx);
  await tx.outboxMessage.create({
    data: {
      kind: 'quote_sent',
      toEmail: quote.sentTo,
      subject: say.subject(fullKitchenName(kitchen)),
      text: [
        say.here(what),
        '',
        say.open(customerFullDate(todayIn(kitchen.timeZone, quote.sentAt.getTime()), language)),
        '',
        [shop?.name ?? wordsIn(language).visit.someShop, shop?.phone, shop?.email].filter(Boolean).join(' · '),
      ].join('\n'),
      createdAt: now,
    },
  });
}
