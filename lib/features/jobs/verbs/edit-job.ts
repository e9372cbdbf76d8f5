import 'server-only';
import { isOpen, JOB_URGENCY_LABEL } from '../../../core/jobs';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db } from '../../../database/client';
import type { EditJob } from '../../../schemas/jobs/jobs';

/** Changes the words, the urgency and the units of an open job, and says in its history what they were. @throws AppError not_found | conflict */
export async function editJob({ db, actor, now }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date }, input: EditJob): Promise<void> {
  const { jobId, version, what, urgency, unitIds } = input;
  await db.$transaction(async (tx) => {
    const job = await tx.job.findUnique({ where: { id: jobId }, include: { units: true } });
    if (!job) throw new AppError('not_found', 'That job is not on file.');
    if (job.version !== version || !isOpen(job.state))
      throw new AppError('conflict', 'Someone changed this job a moment ago. Load the page again; what you typed is still here.');
    const units = await tx.unit.findMany({ where: { id: { in: unitIds }, kitchenId: job.kitchenId }, select: { id: true } });
    if (units.length < unitIds.length) throw new AppError('conflict', 'A chosen unit is not at this kitchen.', 'unitIds');
    const before = new Set(job.units.map((u) => u.unitId));
    const changes = [
      what === job.what ? '' : `Was: “${job.what}”.`,
      urgency === job.urgency ? '' : `From “${JOB_URGENCY_LABEL[job.urgency]}” to “${JOB_URGENCY_LABEL[urgency]}”.`,
      unitIds.length === before.size && unitIds.every((id) => before.has(id)) ? '' : 'Other units.',
    ].filter(Boolean);
    if (changes.length === 0) return;
    await tx.job.update({ where: { id: jobId }, data: { what, urgency, version: { increment: 1 } } });
    await tx.jobUnit.deleteMany({ where: { jobId, unitId: { notIn: unitIds } } });
    await tx.jobUnit.createMany({ data: unitIds.map((unitId) => ({ jobId, unitId })), skipDuplicates: true });
    await tx.jobEvent.create({ data: { jobId, at: now, kind: 'changed', reason: changes.join(' '), byUserId: actor.userId } });
  });
}
