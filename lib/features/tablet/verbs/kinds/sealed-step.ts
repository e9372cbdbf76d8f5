import 'server-only';
import { todayIn } from '../../../../core/calendar';
import { toLocalDate } from '../../../../core/calendar/date-column';
import { AppError } from '../../../../core/errors';
import { CERTIFICATE_LABEL } from '../../../../core/refrigerant-book';
import { NEEDS_CERTIFICATE, SEALED_STEP_TEXT, weighedKg } from '../../../../core/sealed';
import { writeOrNull } from '../../../../database/json';
import { STORED_SEALED_WORK } from '../../../../database/stored/sealed';
import { bookStep } from '../../../refrigerant-book/verbs/book-step';
import { standsOver, type ApplyContext, type Handler, type Of } from '../context';
import { unitOnVisit } from '../unit-on-visit';

/** A step of a repair record beside what is there: the later made one stands, and what it weighed is in the refrigerant book once. */
export const sealedStep: Handler<'sealed.step'> = async (ctx, entry) => {
  const { db, visit, actor, at, now, deviceId } = ctx;
  const { recordId, work, ...p } = entry.payload;
  const unit = await unitOnVisit(ctx, p.unitId);
  const title = SEALED_STEP_TEXT[p.step].title.toLowerCase();
  await certified(ctx, entry);
  await db.sealedRecord.createMany({ data: { id: recordId, unitId: p.unitId, begunAt: at }, skipDuplicates: true });
  await ofItsJob(ctx, recordId, p.unitId);
  const record = await db.sealedRecord.findUniqueOrThrow({ where: { id: recordId }, include: { unit: { select: { name: true } } } });
  if (record.unitId !== p.unitId) throw new AppError('invalid', `That repair record is of ${record.unit.name}.`);
  const standing = await db.sealedStep.findFirst({ where: { recordId, step: p.step, supersededAt: null } });
  const wins = !standing || standsOver(ctx, entry.id, standing);
  if (standing && standing.deviceId !== deviceId)
    ctx.note(`Two tablets say what was done at “${title}” of ${unit.name}. The later made entry stands.`);
  if (standing && wins) await db.sealedStep.update({ where: { id: standing.id }, data: { supersededAt: now } });
  await db.sealedStep.create({
    data: {
      id: entry.id,
      recordId,
      visitId: visit.id,
      ...p,
      work: writeOrNull(STORED_SEALED_WORK, work),
      at,
      byUserId: actor.userId,
      deviceId,
      supersededAt: wins ? null : now,
    },
  });
  if (p.overruledBy && work)
    ctx.note(`“${title}” of ${unit.name} was done without a certificate that holds: ${p.overruledBy} answers for it. ${p.overruledWhy}`);
  if (!wins) return;
  const weighed = weighedKg(work);
  await bookStep(db, {
    step: {
      id: entry.id,
      unitId: p.unitId,
      visitId: visit.id,
      certificateId: p.certificateId,
      overruledBy: p.overruledBy,
      overruledWhy: p.overruledWhy,
    },
    replacesId: standing?.id ?? null,
    work,
    weighed,
    at,
    by: actor.userId,
    note: ctx.note,
  });
};

/** A record that is of no job yet is the work of the one that stands on this visit and names its unit, the most urgent first. */
async function ofItsJob({ db, visit }: ApplyContext, recordId: string, unitId: string): Promise<void> {
  const job = await db.job.findFirst({
    where: {
      kitchenId: visit.kitchenId,
      units: { some: { unitId } },
      OR: [{ visitId: visit.id }, { outcomes: { some: { visitId: visit.id } } }],
    },
    orderBy: [{ urgency: 'asc' }, { number: 'asc' }],
    select: { id: true },
  });
  if (job) await db.sealedRecord.updateMany({ where: { id: recordId, unitId, jobId: null }, data: { jobId: job.id } });
}

/** @throws AppError invalid: a step on refrigerant by somebody whose certificate does not hold, and nobody answers for it */
async function certified({ db, actor, at, visit }: ApplyContext, { payload: p }: Of<'sealed.step'>): Promise<void> {
  if (p.work === null || !NEEDS_CERTIFICATE[p.step]) return;
  if (p.overruledBy !== '' && p.overruledWhy !== '') return;
  const what = SEALED_STEP_TEXT[p.step].title.toLowerCase();
  if (p.certificateId === null)
    throw new AppError('invalid', `“${what}” touches refrigerant: it needs a certificate, or the name of who answers for it and why.`);
  const held = await db.certificate.findFirst({ where: { id: p.certificateId, userId: actor.userId } });
  if (!held) throw new AppError('invalid', `The certificate named at “${what}” is not ${actor.name}’s.`);
  const on = todayIn(visit.timeZone, at.getTime());
  const expired = held.expiresOn !== null && toLocalDate(held.expiresOn) < on;
  if (expired || (held.withdrawnAt !== null && held.withdrawnAt <= at))
    throw new AppError(
      'invalid',
      `${CERTIFICATE_LABEL[held.kind]} of ${actor.name} did not hold on that day. Somebody has to answer for “${what}” by name.`,
    );
}
