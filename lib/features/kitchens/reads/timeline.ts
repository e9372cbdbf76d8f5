import 'server-only';
import { aspectInfo, gradeWords } from '../../../core/findings/grades';
import { describeRule } from '../../../core/calendar';
import { RULE_BY_HAND_LABEL } from '../../../core/intervals/changes';
import { keysOf, labelOf } from '../../../core/typed/closed-set';
import { counted } from '../../../core/wording/counted';
import type { Happened, KitchenTimeline } from '../../../core/visits/happened';
import type { Tx } from '../../../database/client';
import { kitchenVisits, type FindingOnLine, type VisitOnLine } from './kitchen-visits';

/** "Fry freezer: coil matted", of what does not do its work. */
const troubles = (findings: readonly FindingOnLine[]): string[] =>
  findings.map((f) => `${f.unit}: ${aspectInfo(f.aspect).subject.toLowerCase()} ${gradeWords(f)}`);

const few = (parts: readonly string[], most: number): string =>
  parts.length > most ? `${parts.slice(0, most).join('; ')}; and ${parts.length - most} more` : parts.join('; ');

const stoppedAt = (v: VisitOnLine, phase: 'found' | 'left'): string[] => troubles((v.stopped ?? []).filter((f) => f.phase === phase));

function visitHappened(v: VisitOnLine): Happened {
  const cancelled = v.status === 'cancelled';
  const still = stoppedAt(v, 'left');
  return {
    id: v.id,
    at: (v.arrivedAt ?? v.startsAt).getTime(),
    kind: 'visit',
    href: cancelled ? `/week/${v.id}` : `/visits/${v.id}`,
    head: `${cancelled ? 'Visit cancelled' : v.emergency ? 'Emergency' : 'Visit'}, ${v.technician}`,
    lines: [
      cancelled ? v.cancelReason : '',
      foundWords(v),
      still.length > 0 ? `Left so: ${few(still, 4)}.` : '',
      v.done ? `Done: ${v.done.map(({ what, n }) => `${what} ${n}×`).join(', ')}.` : '',
      recordWords(v),
    ].filter(Boolean),
    alarm: still.length > 0,
  };
}

function foundWords(v: VisitOnLine): string {
  const bad = stoppedAt(v, 'found');
  if (bad.length > 0) return `Found ${few(bad, 4)}.`;
  return v.looked ? 'Found nothing out of order.' : '';
}

/** What the visit left on file beside grades. */
function recordWords({ readings, photos, parts, moved }: VisitOnLine): string {
  const some = (n: number, text: () => string) => (n > 0 ? [text()] : []);
  return [
    ...some(readings, () => counted(readings, 'reading')),
    ...some(photos, () => counted(photos, 'picture')),
    ...(parts ? [`parts: ${few(parts, 3)}`] : []),
    ...some(moved, () => `${counted(moved, 'rule')} moved by what was found`),
  ].join(', ');
}

/** When somebody was there and what was found, what was asked for and written: one line of time for a kitchen. */
export async function kitchenTimeline(db: Tx, kitchenId: string, now: Date, most: number): Promise<KitchenTimeline> {
  const [visits, byHand, mails, jobs, next] = await Promise.all([
    kitchenVisits(db, kitchenId, most),
    rulesByHand(db, kitchenId, most),
    mailsAbout(db, kitchenId, most),
    db.job.findMany({
      where: { kitchenId },
      orderBy: { createdAt: 'desc' },
      take: most,
      select: {
        id: true,
        number: true,
        createdAt: true,
        what: true,
        source: true,
        callerName: true,
        closedAt: true,
        closedNote: true,
        units: { select: { unit: { select: { name: true } } }, orderBy: { unit: { name: 'asc' } } },
      },
    }),
    db.visit.findFirst({
      where: { kitchenId, status: 'booked', startsAt: { gte: now } },
      orderBy: { startsAt: 'asc' },
      select: { id: true, startsAt: true, technician: { select: { name: true } } },
    }),
  ]);
  const made = visits.find((v) => v.status === 'done');
  const happened: Happened[] = [
    ...visits.map(visitHappened),
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
      href: `/jobs/${j.id}`,
      head: j.source === 'call' ? `Call${j.callerName ? ` from ${j.callerName}` : ''}` : `Job ${j.number}`,
      lines: [
        [j.units.map((u) => u.unit.name).join(', '), j.what].filter(Boolean).join(': '),
        j.closedAt ? `Closed${j.closedNote ? `: ${j.closedNote}` : '.'}` : 'Open.',
      ].filter(Boolean),
      alarm: false,
    })),
  ].sort((a, b) => b.at - a.at);
  return {
    last: made
      ? {
          id: made.id,
          at: (made.arrivedAt ?? made.startsAt).getTime(),
          technician: made.technician,
          found: stoppedAt(made, 'found'),
          left: stoppedAt(made, 'left'),
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

const mailsAbout = async (db: Tx, kitchenId: string, most: number) =>
  db.outboxMessage.findMany({
    where: { visitId: { in: await visitIds(db, kitchenId) } },
    orderBy: { createdAt: 'desc' },
    take: most,
    select: { id: true, createdAt: true, subject: true, status: true, toEmail: true, visitId: true },
  });

const visitIds = async (db: Tx, kitchenId: string) =>
  (await db.visit.findMany({ where: { kitchenId }, orderBy: { startsAt: 'desc' }, take: 200, select: { id: true } })).map((v) => v.id);
