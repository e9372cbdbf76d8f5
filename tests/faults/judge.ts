import { isDeepStrictEqual } from 'node:util';
import { foldVisit, type Entry, type VisitOnFile } from '@/lib/core/tablet';
import type { Db } from '@/lib/database/client';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import type { Device } from './a-device';
import { IN_STOCK } from './shop';
import { PART_ON_LIST, WISHED } from './entries';

export type Verdict = { lost: string[]; doubled: string[]; unequal: string[] };

const TABLE = {
  'finding.set': 'finding',
  'reading.add': 'reading',
  'part.use': 'partUsed',
  'follow_up.add': 'job',
  'food_warning.add': 'foodWarning',
  'event.add': 'unitEvent',
  'photo.attach': 'photo',
  'sealed.step': 'sealedStep',
} as const;

/** What was written on the tablets against what the office has. */
export async function judge(
  db: Db,
  given: {
    devices: readonly Device[];
    written: readonly Entry[];
    visitIds: readonly string[];
    personId: string;
    before: readonly VisitOnFile[];
  },
): Promise<Verdict> {
  const verdict: Verdict = { lost: [], doubled: [], unequal: [] };
  const filed = await db.entry.findMany({ where: { device: { userId: given.personId }, visitId: { in: [...given.visitIds] } } });
  const byId = new Map(filed.map((o) => [o.id, o]));
  for (const op of given.written) {
    const there = byId.get(op.id);
    if (!there) verdict.lost.push(`${op.kind} ${op.id} never arrived`);
    else if (!isDeepStrictEqual(there.payload, plain(op.payload))) verdict.unequal.push(`${op.kind} ${op.id} arrived changed`);
  }
  if (filed.length > given.written.length) verdict.doubled.push(`${filed.length} entries filed of ${given.written.length} written`);
  const sameAs = new Map(
    filed.flatMap((o) => ((o.detail as { same?: string }).same ? [[o.id, (o.detail as { same: string }).same] as const] : [])),
  );
  await judgeRows(db, given, new Set(filed.filter((o) => o.outcome !== 'rejected').map((o) => o.id)), sameAs, verdict);
  await judgeBook(db, given.visitIds, verdict);
  await judgeStock(db, verdict);
  await judgeJobs(db, given.visitIds, filed, verdict);
  judgeTold(filed, new Map(given.written.map((o) => [o.id, Date.parse(o.basedOn)])), verdict);
  const office = await visitsOnFile(db, given.visitIds, given.personId);
  judgeEnds(office, given, verdict);
  if (given.devices.length === 1)
    judgeWhole(office, given, new Set(filed.filter((o) => o.outcome === 'rejected').map((o) => o.id)), verdict);
  return verdict;
}

/** After everything the office had before. */
const LATER = Date.UTC(2100, 0);

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value ?? null));

/** Each entry that was taken in made its one row. */
async function judgeRows(
  db: Db,
  given: { written: readonly Entry[]; visitIds: readonly string[] },
  taken: ReadonlySet<string>,
  /** Entries that said what another tablet's said, and whose row stands for both: that one is not taken back alone. */
  sameAs: ReadonlyMap<string, string>,
  verdict: Verdict,
): Promise<void> {
  const shared = new Set(sameAs.values());
  const struck = new Set(
    given.written
      .filter((o) => o.kind === 'entry.strike' && taken.has(o.id))
      .map((o) => (o.payload as { entryId: string }).entryId)
      .filter((id) => !shared.has(id)),
  );
  for (const [kind, table] of Object.entries(TABLE)) {
    const find = db[table].findMany as unknown as (q: object) => Promise<{ id: string; fileId?: string | null }[]>;
    const rows = await find({
      where:
        table === 'job'
          ? { foundVisitId: { in: [...given.visitIds] }, what: { startsWith: WISHED } }
          : { visitId: { in: [...given.visitIds] } },
    });
    const expected = given.written
      .filter((o) => o.kind === kind && taken.has(o.id) && !sameAs.has(o.id) && !struck.has(o.id))
      .map((o) => o.id);
    const there = new Map(rows.map((r) => [r.id, r]));
    for (const id of expected) {
      const row = there.get(id);
      if (!row) verdict.lost.push(`${kind} ${id} has no row`);
      else if (table === 'photo' && !row.fileId) verdict.lost.push(`picture of ${id} never arrived`);
    }
    if (rows.length > expected.length) verdict.doubled.push(`${rows.length} rows for ${expected.length} of ${kind}`);
  }
  const current = await db.finding.groupBy({
    by: ['visitId', 'unitId', 'aspect', 'phase'],
    where: { visitId: { in: [...given.visitIds] }, supersededAt: null },
    _count: true,
    _max: { at: true },
  });
  const all = await db.finding.groupBy({
    by: ['visitId', 'unitId', 'aspect', 'phase'],
    where: { visitId: { in: [...given.visitIds] } },
    _max: { at: true },
  });
  if (current.length !== all.length) verdict.unequal.push('a place has findings but none that stands');
  for (const c of current) {
    const last = all.find((a) => a.visitId === c.visitId && a.unitId === c.unitId && a.aspect === c.aspect && a.phase === c.phase);
    if (c._max.at?.getTime() !== last?._max.at?.getTime()) verdict.unequal.push(`an older finding stands for ${c.aspect}`);
  }
}

/** The refrigerant book holds what the standing steps weighed, once each: not more by a step sent twice, not less by one that was written anew. */
async function judgeBook(db: Db, visitIds: readonly string[], verdict: Verdict): Promise<void> {
  const steps = await db.sealedStep.findMany({
    where: { visitId: { in: [...visitIds] } },
    include: { entries: true },
  });
  for (const step of steps) {
    const work = step.work as { cylinderId?: string | null; startKg?: number; endKg?: number } | null;
    const weighed = step.supersededAt === null && work?.cylinderId ? (work.endKg ?? 0) - (work.startKg ?? 0) : 0;
    const booked = step.entries.reduce((sum, e) => sum + e.kg, 0);
    if (Math.abs(weighed - booked) < 1e-9) continue;
    verdict[Math.abs(booked) < Math.abs(weighed) ? 'lost' : 'doubled'].push(
      `${step.step} ${step.id}: ${weighed} kg weighed, ${booked} kg in the book`,
    );
  }
}

/**
 * What was said of a job at a visit stands there once, in the words of an entry that was taken in; and where its visit
 * closed, the job was brought on at most once by each entry.
 */
async function judgeJobs(db: Db, visitIds: readonly string[], filed: readonly Filed[], verdict: Verdict): Promise<void> {
  const said = filed.filter((o) => o.kind === 'job.outcome' && o.outcome !== 'rejected');
  const rows = await db.jobOutcome.findMany({ where: { visitId: { in: [...visitIds] } } });
  const place = (visitId: string, jobId: string) => `${visitId} ${jobId}`;
  const of = (o: Filed) => place(o.visitId ?? '', (o.payload as { jobId: string }).jobId);
  const expected = new Set(said.map(of));
  for (const at of expected) if (!rows.some((r) => place(r.visitId, r.jobId) === at)) verdict.lost.push(`job.outcome at ${at} has no row`);
  for (const row of rows) {
    const entry = said.find((o) => o.id === row.id);
    const { outcome, note } = (entry?.payload ?? {}) as { outcome?: string; note?: string };
    if (!entry || of(entry) !== place(row.visitId, row.jobId)) verdict.doubled.push(`job outcome ${row.id} is of no entry`);
    else if (outcome !== row.outcome || note !== row.note) verdict.unequal.push(`job outcome ${row.id} is filed in other words`);
  }
  const moves = await db.jobEvent.findMany({ where: { visitId: { in: [...visitIds] }, kind: 'moved', from: { not: null } } });
  const closed = await db.job.findMany({ where: { outcomes: { some: { visitId: { in: [...visitIds] } } } }, include: { events: true } });
  for (const job of closed) {
    const ended = job.events.filter((e) => e.kind === 'moved' && (e.to === 'done' || e.to === 'declined'));
    if (ended.length > 1) verdict.doubled.push(`job ${job.number} ended ${ended.length} times`);
    if (moves.filter((e) => e.jobId === job.id).length > said.filter((o) => (o.payload as { jobId: string }).jobId === job.id).length + 2)
      verdict.doubled.push(`job ${job.number} was moved more often than anything was said of it`);
  }
}

/** What the list of parts lacks is what the standing entries took from it, place by place; and each with a unit began one warranty. */
async function judgeStock(db: Db, verdict: Verdict): Promise<void> {
  const part = await db.part.findUniqueOrThrow({ where: { id: PART_ON_LIST }, include: { used: { include: { warranty: true } } } });
  for (const [place, column] of [
    ['van', 'inVan'],
    ['shop', 'inShop'],
  ] as const) {
    const taken = part.used.filter((u) => u.place === place).reduce((sum, u) => sum + u.taken, 0);
    const gone = IN_STOCK[column] - part[column];
    if (gone !== taken)
      verdict[gone < taken ? 'lost' : 'doubled'].push(`${taken} pieces taken from the ${place}, ${gone} gone from the list`);
  }
  for (const u of part.used) if ((u.unitId !== null) !== (u.warranty !== null)) verdict.lost.push(`warranty of part used ${u.id}`);
}

type Filed = Awaited<ReturnType<Db['entry']['findMany']>>[number];

/** Two tablets that answer one question differently, once each, the second not knowing of the first: the office is told. */
function judgeTold(filed: readonly Filed[], basedOn: ReadonlyMap<string, number>, verdict: Verdict): void {
  const answers = new Map<string, Filed[]>();
  for (const op of filed) {
    const about = { 'task.done': 'taskId', 'task.not_done': 'taskId', 'unit.outcome': 'unitId' }[op.kind];
    if (!about || op.outcome === 'rejected') continue;
    const what = `${op.visitId} ${(op.payload as Record<string, string>)[about]} ${about}`;
    answers.set(what, [...(answers.get(what) ?? []), op]);
  }
  for (const [what, [a, b, ...more]] of answers) {
    if (!a || !b || more.length > 0 || a.deviceId === b.deviceId) continue;
    if (a.kind === b.kind && isDeepStrictEqual(a.payload, b.payload)) continue;
    const [first, second] = a.receivedAt <= b.receivedAt ? [a, b] : [b, a];
    if (first.receivedAt.getTime() < (basedOn.get(second.id) ?? 0)) continue;
    if (![a, b].some((o) => o.outcome === 'conflict')) verdict.lost.push(`two tablets differ on ${what} and nobody is told`);
  }
}

/** Every tablet shows what the office has. */
function judgeEnds(office: readonly VisitOnFile[], given: { devices: readonly Device[] }, verdict: Verdict): void {
  for (const device of given.devices)
    for (const visit of office) {
      const shown = device.tablet.snapshot.visits.find((v) => v.id === visit.id);
      if (!isDeepStrictEqual(plain(shown), plain(visit)))
        verdict.unequal.push(`a tablet shows another visit than the office has: ${differing(shown, visit)}`);
    }
}

function differing(a: VisitOnFile | undefined, b: VisitOnFile): string {
  if (!a) return 'it has none';
  const keys = (Object.keys(b) as (keyof VisitOnFile)[]).filter((k) => !isDeepStrictEqual(plain(a[k]), plain(b[k])));
  return keys.map((k) => `${k} ${firstDifference(plain(a[k]), plain(b[k]))}`).join(', ');
}

/** Where two values part, as a path with both ends. */
function firstDifference(a: unknown, b: unknown, path = ''): string {
  if (typeof a === 'object' && typeof b === 'object' && a && b)
    for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
      const [x, y] = [(a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]];
      if (!isDeepStrictEqual(x, y)) return firstDifference(x, y, `${path}.${key}`);
    }
  return `at ${path || '.'}: ${JSON.stringify(a)?.slice(0, 300)} / ${JSON.stringify(b)?.slice(0, 300)}`;
}

/**
 * With one tablet there is one right end: its entries laid over the visit in the order they were written. The order is
 * that of their numbers; a clock that jumped in between says otherwise.
 */
function judgeWhole(
  office: readonly VisitOnFile[],
  given: { written: readonly Entry[]; before: readonly VisitOnFile[] },
  rejected: ReadonlySet<string>,
  verdict: Verdict,
): void {
  const taken = given.written
    .filter((o) => !rejected.has(o.id))
    .sort((a, b) => a.seq - b.seq)
    .map((o, i) => ({ ...o, madeAt: new Date(LATER + i).toISOString() }));
  const standing = standingSteps(taken);
  // A task that was taken on elsewhere stands on whichever visit answered it first, which no one visit's entries tell.
  const moved = new Set(given.written.flatMap((o) => (o.kind === 'task.take' ? [o.payload.taskId] : [])));
  for (const visit of office) {
    const start = given.before.find((v) => v.id === visit.id);
    if (!start) continue;
    const [typed, filed] = [essence(foldVisit(start, taken), moved, standing), essence(visit, moved, standing)];
    if (!isDeepStrictEqual(typed, filed))
      verdict.unequal.push(`typed and filed differ: ${JSON.stringify(typed)} / ${JSON.stringify(filed)}`.slice(0, 2000));
  }
}

/** A step of a repair record written anew at another visit stands there, and no longer on the one before. */
function standingSteps(taken: readonly Entry[]): ReadonlySet<string> {
  const last = new Map<string, string>();
  for (const e of taken) if (e.kind === 'sealed.step') last.set(`${e.payload.recordId} ${e.payload.step}`, e.id);
  return new Set(last.values());
}

/** A visit without the instants the office may have put right. */
function essence(v: VisitOnFile, moved: ReadonlySet<string>, standing: ReadonlySet<string>) {
  const ids = (list: readonly { id: string }[]) => list.map((e) => e.id).sort();
  return {
    status: v.status,
    arrived: v.entries.arrivedAt !== null,
    findings: v.entries.findings.map((f) => `${f.id} ${f.grade} ${f.notLookedWhy}`).sort(),
    readings: v.entries.readings.map((r) => `${r.id} ${JSON.stringify(Object.entries(r.values).sort())}`).sort(),
    outcomes: v.entries.outcomes.map((o) => `${o.unitId} ${o.outcome} ${o.reason}`).sort(),
    tasks: v.tasks
      .filter((t) => !moved.has(t.taskId))
      .map((t) => `${t.taskId} ${t.outcome} ${t.reason}`)
      .sort(),
    parts: ids(v.entries.parts),
    // The rules open follow-ups of their own.
    jobs: (v.entries.jobOutcomes ?? []).map((o) => `${o.id} ${o.jobId} ${o.outcome} ${o.note}`).sort(),
    followUps: ids(v.entries.followUps.filter((f) => f.what.startsWith(WISHED))),
    foodWarnings: ids(v.entries.foodWarnings),
    events: ids(v.entries.events),
    photos: ids(v.entries.photos),
    sealed: ids((v.entries.sealed ?? []).filter((s) => standing.has(s.id))),
    signature: v.entries.signature,
  };
}
