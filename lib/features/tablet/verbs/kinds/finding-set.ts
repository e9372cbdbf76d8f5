import 'server-only';
import { ASPECT_LABEL, gradeWords, type Aspect } from '../../../../core/findings/grades';
import { standsOver, type Handler } from '../context';
import { unitOnVisit } from '../unit-on-visit';

const findingSentence = (aspect: Aspect, f: { grade: string | null; notLookedWhy: string }) =>
  f.grade === null ? `not looked at (${f.notLookedWhy})` : gradeWords({ aspect, grade: f.grade });

/** A finding beside what is there: the later made one stands, the other is kept as superseded. */
export const findingSet: Handler<'finding.set'> = async (ctx, entry) => {
  const { db, visit, actor, at, now, deviceId } = ctx;
  const { replaces, ...p } = entry.payload;
  const unit = await unitOnVisit(ctx, p.unitId);
  const standing = await db.finding.findFirst({
    where: { visitId: visit.id, unitId: p.unitId, aspect: p.aspect, phase: p.phase, supersededAt: null },
  });
  const wins = !standing || standsOver(ctx, entry.id, standing);
  const differs =
    standing && findingSentence(p.aspect, standing) !== findingSentence(p.aspect, p) && !(standing.grade === null && p.grade === null);
  if (standing && !differs) ctx.same();
  if (standing && differs && standing.id !== replaces)
    ctx.note(
      `Two entries for ${ASPECT_LABEL[p.aspect].toLowerCase()} of ${unit.name}: ${findingSentence(p.aspect, standing)} and ${findingSentence(p.aspect, p)}. The later made one stands: ${findingSentence(p.aspect, wins ? p : standing)}.`,
    );
  if (standing && wins) await db.finding.update({ where: { id: standing.id }, data: { supersededAt: now } });
  await db.finding.create({
    data: { id: entry.id, visitId: visit.id, ...p, at, byUserId: actor.userId, deviceId, supersededAt: wins ? null : now },
  });
};
