import 'server-only';
import { aspectInfo, gradeWords, isStopped, type Aspect, type Grade } from '../../../core/findings/grades';
import { counted } from '../../../core/wording/counted';
import type { Tx } from '../../../database/client';

/** One thing that happened at a kitchen, newest first in a list of them. Instants in epoch milliseconds. */
export type Happened = {
  id: string;
  at: number;
  kind: 'visit' | 'mail' | 'job';
  href: string | null;
  head: string;
  /** What came of it, worst first. */
  lines: string[];
  alarm: boolean;
};

export type KitchenTimeline = {
  /** The last visit made, and the next one booked. */
  last: { id: string; at: number; technician: string; found: string[]; left: string[] } | null;
  next: { id: string; at: number; technician: string } | null;
  happened: Happened[];
};

type Finding = { unitId: string; unit: string; aspect: Aspect; grade: Grade | null; phase: string; at: Date };

/** "Fry freezer: coil matted", of what does not do its work. */
const troubles = (findings: readonly Finding[]): string[] =>
  findings
    .filter((f) => f.grade !== null && isStopped(f.aspect, f.grade))
    .map((f) => `${f.unit}: ${aspectInfo(f.aspect).subject.toLowerCase()} ${gradeWords(f)}`);

const few = (words: readonly string[], most: number): string =>
  words.length > most ? `${words.slice(0, most).join('; ')}; and ${words.length - most} more` : words.join('; ');

/** When somebody was there and what was found, what was asked for and written: one line of time for a kitchen. */
export async function kitchenTimeline(db: Tx, kitchenId: string, now: Date, most: number): Promise<KitchenTimeline> {
  const visits = await db.visit.findMany({
    where: { kitchenId, OR: [{ status: { in: ['done', 'started'] } }, { status: 'cancelled' }] },
    orderBy: [{ startsAt: 'desc' }, { id: 'asc' }],
    take: most,
    include: {
      technician: { select: { name: true } },
      tasks: { where: { outcome: 'done' }, include: { task: { select: { kind: { select: { label: true } } } } } },
      findings: { where: { supersededAt: null }, include: { unit: { select: { name: true } } } },
      readings: { where: { supersededAt: null }, select: { estimate: { select: { verdict: true } } } },
      parts: { select: { what: true } },
      _count: { select: { photos: true } },
    },
  });
  const ids = visits.map((v) => v.id);
  const [changes, mails, jobs, next] = [
    await db.ruleChange.findMany({
      where: { visitId: { in: ids }, kind: 'evidence' },
      select: { visitId: true, task: { select: { kind: { select: { label: true } }, unit: { select: { name: true } } } } },
    }),
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
  const of = (v: (typeof visits)[number]) => v.findings.map((f): Finding => ({ ...f, unit: f.unit.name }));
  const made = visits.find((v) => v.status === 'done');
  const happened: Happened[] = [
    ...visits.map((v): Happened => {
      const [met, left] = [of(v).filter((f) => f.phase === 'found'), of(v).filter((f) => f.phase === 'left')];
      const done = new Map<string, number>();
      for (const t of v.tasks) done.set(t.task.kind.label.toLowerCase(), (done.get(t.task.kind.label.toLowerCase()) ?? 0) + 1);
      const moved = changes.filter((c) => c.visitId === v.id);
      const [bad, still] = [troubles(met), troubles(left)];
      return {
        id: v.id,
        at: (v.arrivedAt ?? v.startsAt).getTime(),
        kind: 'visit',
        href: v.status === 'cancelled' ? `/week/${v.id}` : `/visits/${v.id}`,
        head: `${v.status === 'cancelled' ? 'Visit cancelled' : v.emergency ? 'Emergency' : 'Visit'}, ${v.technician.name}`,
        lines: [
          v.status === 'cancelled' ? v.cancelReason : '',
          bad.length > 0 ? `Found ${few(bad, 4)}.` : met.length > 0 ? 'Found nothing out of order.' : '',
          still.length > 0 ? `Left so: ${few(still, 4)}.` : '',
          done.size > 0 ? `Done: ${[...done].map(([what, n]) => `${what} ${n}×`).join(', ')}.` : '',
          [
            v.readings.length > 0 ? counted(v.readings.length, 'reading') : '',
            v._count.photos > 0 ? counted(v._count.photos, 'picture') : '',
            v.parts.length > 0
              ? `parts: ${few(
                  v.parts.map((p) => p.what),
                  3,
                )}`
              : '',
            moved.length > 0 ? `${counted(moved.length, 'rule')} moved by what was found` : '',
          ]
            .filter(Boolean)
            .join(', '),
        ].filter(Boolean),
        alarm: still.length > 0,
      };
    }),
    ...mails.map((m): Happened => ({
      id: m.id,
      at: m.createdAt.getTime(),
      kind: 'mail',
      href: m.visitId ? `/week/${m.visitId}` : null,
      head: `Mail to ${m.toEmail}`,
      lines: [`${m.subject}. ${m.status === 'sent' ? 'Sent.' : `Not sent: ${m.status}.`}`],
      alarm: m.status === 'failed' || m.status === 'unknown',
    })),
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
          found: troubles(of(made).filter((f) => f.phase === 'found')),
          left: troubles(of(made).filter((f) => f.phase === 'left')),
        }
      : null,
    next: next && { id: next.id, at: next.startsAt.getTime(), technician: next.technician.name },
    happened: happened.slice(0, most),
  };
}

const visitIds = async (db: Tx, kitchenId: string) =>
  (await db.visit.findMany({ where: { kitchenId }, orderBy: { startsAt: 'desc' }, take: 200, select: { id: true } })).map((v) => v.id);
