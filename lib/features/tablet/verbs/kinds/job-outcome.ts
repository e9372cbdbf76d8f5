import 'server-only';
import { JOB_OUTCOME_LABEL } from '../../../../core/entries/entries';
import { AppError } from '../../../../core/errors';
import { isOpen } from '../../../../core/jobs';
import { applyOutcomes } from '../../../jobs/verbs/apply-outcomes';
import { cameMeanwhile } from '../came-meanwhile';
import { standsOver, type Handler } from '../context';

/** What became of a job at the visit. It takes hold as the visit closes; one that comes after that, at once. */
export const jobOutcome: Handler<'job.outcome'> = async (ctx, entry) => {
  const { db, visit, at, deviceId, actor } = ctx;
  const { jobId, outcome, note } = entry.payload;
  const job = await db.job.findUnique({ where: { id: jobId }, select: { number: true, kitchenId: true, state: true } });
  if (!job) throw new AppError('not_found', 'That job is not on file.');
  if (job.kitchenId !== visit.kitchenId) throw new AppError('invalid', `Job ${job.number} is of another kitchen.`);
  const place = { visitId_jobId: { visitId: visit.id, jobId } };
  const standing = await db.jobOutcome.findUnique({ where: place });
  const wins = !standing || standsOver(ctx, entry.id, standing);
  const differs = standing && standing.deviceId !== deviceId && standing.outcome !== outcome;
  if (differs && (await cameMeanwhile(ctx, ['job.outcome'], { jobId })))
    ctx.note(
      `Two tablets differ on job ${job.number}: ${JOB_OUTCOME_LABEL[standing.outcome].toLowerCase()} and ${JOB_OUTCOME_LABEL[outcome].toLowerCase()}. The later stands.`,
    );
  if (!wins) return;
  const said = { id: entry.id, outcome, note, at, deviceId, byUserId: actor.userId };
  await db.jobOutcome.upsert({ where: place, create: { ...said, visitId: visit.id, jobId }, update: said });
  if (!isOpen(job.state))
    ctx.chore(`Job ${job.number} was closed by then; the tablet says: ${JOB_OUTCOME_LABEL[outcome].toLowerCase()}. ${note}`.trim());
  else if (visit.status === 'done') await applyOutcomes(db, visit.id, { by: actor.userId, at });
  else if (visit.status === 'cancelled')
    ctx.chore(`The visit was cancelled; the tablet says of job ${job.number}: ${JOB_OUTCOME_LABEL[outcome].toLowerCase()}.`);
};
