import 'server-only';
import { aspectInfo, gradeWords, isStopped, type Aspect, type Grade } from '../../../core/findings/grades';
import { describeRule } from '../../../core/calendar';
import { RULE_BY_HAND_LABEL } from '../../../core/intervals/changes';
import { keysOf, labelOf } from '../../../core/typed/closed-set';
import { counted } from '../../../core/wording/counted';
import type { Happened, KitchenTimeline } from '../../../core/visits/happened';
import type { Prisma, Tx } from '../../../database/client';

type Finding = { unitId: string; unit: string; aspect: Aspect; grade: Grade | null; phase: string; at: Date };

/** "Fry freezer: coil matted", of what does not do its work. */
const troubles = (findings: readonly Finding[]): string[] =>
  findings
    .filter((f) => f.grade !== null && isStopped(f.aspect, f.grade))
    .map((f) => `${f.unit}: ${aspectInfo(f.aspect).subject.toLowerCase()} ${gradeWords(f)}`);

const few = (parts: readonly string[], most: number): string =>
  parts.length > most ? `${parts.slice(0, most).join('; ')}; and ${parts.length - most} more` : parts.join('; ');

const VISIT = {
  technician: { select: { name: true } },
  tasks: { where: { outcome: 'done' }, include: { task: { select: { kind: { select: { label: true } } } } } },
  findings: { where: { supersededAt: null }, include: { unit: { select: { name: true } } } },
  readings: { where: { supersededAt: null }, select: { estimate: { select: { verdict: true } } } },
  parts: { select: { what: true } },
  _count: { select: { photos: true } },
} satisfies Prisma.VisitInclude;
type VisitRow = Prisma.VisitGetPayload<{ include: typeof VISIT }>;

const findingsOf = (v: VisitRow, phase: 'found' | 'left'): Finding[] =>
  v.findings.filter((f) => f.phase === phase).map((f) => ({ ...f, unit: f.unit.name }));

/** `moved` rules changed by what was found there. */
function visitHappened(v: VisitRow, moved: number): Happened {
  const cancelled = v.status === 'cancelled';
  const still = troubles(findingsOf(v, 'left'));
  return {
    id: v.id,
    at: (v.arrivedAt ?? v.startsAt).getTime(),
    kind: 'visit',
    href: cancelled ? `/week/${v.id}` : `/visits/${v.id}`,
    head: `${cancelled ? 'Visit cancelled' : v.emergency ? 'Emergency' : 'Visit'}, ${v.technician.name}`,
    lines: [
      cancelled ? v.cancelReason : '',
      foundWords(findingsOf(v, 'found')),
      still.length > 0 ? `Left so: ${few(still, 4)}.` : '',
      doneWords(v),
      recordWords(v, moved),
    ].filter(Boolean),
    alarm: still.length > 0,
  };
}

function foundWords(found: readonly Finding[]): string {
  const bad = troubles(found);
  if (bad.length > 0) return `Found ${few(bad, 4)}.`;
  return found.length > 0 ? 'Found nothing out of order.' : '';
}

function doneWords({ tasks }: VisitRow): string {
  const done = new Map<string, number>();
  for (const t of tasks) done.set(t.task.kind.label.toLowerCase(), (done.get(t.task.kind.label.toLowerCase()) ?? 0) + 1);
  return done.size > 0 ? `Done: ${[...done].map(([what, n]) => `${what} ${n}×`).join(', ')}.` : '';
}

/** What the visit left on file beside grades. */
function recordWords(v: VisitRow, moved: number): string {
  const some = (n: number, text: () => string) => (n > 0 ? [text()] : []);
  return [
    ...some(v.readings.length, () => counted(v.readings.length, 'reading')),
    ...some(v._count.photos, () => counted(v._count.photos, 'picture')),
    ...some(
      v.parts.length,
      () =>
        `parts: ${few(
          v.parts.map((p) => p.what),
          3,
        )}`,
    ),
    ...some(moved, () => `${counted(moved, 'rule')} moved by what was found`),
  ].join(', ');
}

/** When somebody was there and what was found, what was asked for and written: one line of time for a kitchen. */
export async function kitchenTimeline(db: Tx, kitchenId: string, now: Date, most: number): Promise<KitchenTimeline> {
  const visits = await db.visit.findMany({
    where: { kitchenId, OR: [{ status: { in: ['done', 'started'] } }, { status: 'cancelled' }] },
    orderBy: [{ startsAt: 'desc' }, { id: 'asc' }],
    take: most,
    include: VISIT,
  });
  const ids = visits.map((v) => v.id);
  const [changes, byHand, mails, jobs, next] = [
    await db.ruleChange.groupBy({ by: ['visitId'], where: { visitId: { in: ids }, kind: 'evidence' }, _count: true }),
    await rulesByHand(db, kitchenId, most),
    await db.outboxMessage.findMany({
      where: { visitId: { in: await visitIds(db, kitchenId) } },
      orderBy: { createdAt: 'desc' },
      take: most,
      select: { id: true, createdAt: true, subject: true, status: true, toEmail: true, visitId: true },
    }),
    await db.job.findMany({
      where: { kitchenId },
      orderBy: { createdAt: 'desc' },
      take: most,
      select: { id: true, number: true, createdAt: true, what: true, source: true, callerName: true, closedAt: true, closedNote: true },
    }),
    await db.visit.findFirst({
      where: { kitchenId, status: 'booked', startsAt: { gte: now } },
      orderBy: { startsAt: 'asc' },
      select: { id: true, startsAt: true, technician: { select: { name: true } } },
    }),
  ];
  const made = visits.find((v) => v.status === 'done');
  const happened: Happened[] = [
    ...visits.map((v) => visitHappened(v, changes.find((c) => c.visitId === v.id)?._count ?? 0)),
    ...mails.map((m): Happened => ({
      id: m.id,
      at: m.createdAt.getTime(),
      kind: 'mail',
      href: m.visitId ? `/week/${m.visitId}` : null,
      head: `Mail to ${m.toEmail}`,
      lines: [`${m.subject}. ${m.status === 'sent' ? 'Sent.' : `Not sent: ${m.status}.`}`],
      alarm: m.status === 'failed' || m.status === 'unknown',
    })),
    ...byHand,
    ...jobs.map((j): Happened => ({
      id: j.id,
      at: j.createdAt.getTime(),
      kind: 'job',
      href: null,
      head: j.source === 'call' ? `Call${j.callerName ? ` from ${j.callerName}` : ''}` : `Job ${j.number}`,
      lines: [j.what, j.closedAt ? `Closed${j.closedNote ? `: ${j.closedNote}` : '.'}` : 'Open.'].filter(Boolean),
      alarm: false,
    })),
  ].sort((a, b) => b.at - a.at);
  return {
    last: made
      ? {
          id: made.id,
          at: (made.arrivedAt ?? made.startsAt).getTime(),
          technician: made.technician.name,
          found: troubles(findingsOf(made, 'found')),
          left: troubles(findingsOf(made, 'left')),
        }
      : null,
    next: next && { id: next.id, at: next.startsAt.getTime(), technician: next.technician.name },
    happened: happened.slice(0, most),
  };
}

/** Rules that somebody changed, locked or took back, each with the reason given. */
async function rulesByHand(db: Tx, kitchenId: string, most: number): Promise<Happened[]> {
  const rows = await db.ruleChange.findMany({
    where: { task: { kitchenId }, byUserId: { not: null }, kind: { in: keysOf(RULE_BY_HAND_LABEL) } },
    orderBy: [{ at: 'desc' }, { id: 'asc' }],
    take: most,
    select: {
      id: true, at: true, kind: true, fromRule: true, toRule: true, reason: true, byUserId: true,
      task: { select: { unitId: true, kind: { select: { label: true } }, unit: { select: { name: true } } } },
    },
  }); // prettier-ignore
  const people = await db.user.findMany({ where: { id: { in: rows.flatMap((r) => r.byUserId ?? []) } }, select: { id: true, name: true } });
  return rows.map(({ id, at, kind, fromRule, toRule, reason, byUserId, task }): Happened => ({
    id,
    at: at.getTime(),
    kind: 'rule',
    href: `/units/${task.unitId}`,
    head: `${labelOf(RULE_BY_HAND_LABEL, kind)} by ${people.find((p) => p.id === byUserId)?.name ?? 'the office'}`,
    lines: [
      `${task.unit.name}, ${task.kind.label.toLowerCase()}${fromRule === toRule ? '' : `: ${describeRule(fromRule)} → ${describeRule(toRule)}`}`,
      reason,
    ].filter(Boolean),
    alarm: false,
  }));
}

const visitIds = async (db: Tx, kitchenId: string) =>
  (await db.visit.findMany({ where: { kitchenId }, orderBy: { startsAt: 'desc' }, take: 200, select: { id: true } })).map((v) => v.id);
