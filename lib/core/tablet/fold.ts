import { blankUnit } from '../equipment/unit-fields';
import { stands } from '../entries/newer';
import { kindInfo, usualTasks } from '../tasks/kinds';
import type { Entry, Payloads } from '../entries/entries';
import type { Entries, UnitOnFile, VisitOnFile } from './state';

/**
 * A visit as the tablet shows it: what the office told, with the entries it has not heard of laid over it in order.
 * The office applies the same entries to the same end.
 */
export function foldVisit(onFile: VisitOnFile, entries: readonly Entry[]): VisitOnFile {
  let visit = onFile;
  for (const op of entries) if (op.visitId === visit.id) visit = step(visit, op);
  return visit;
}

type At<E> = E & { id: string; at: string };

/** The list with the incoming entry in its place, unless what stands there is newer. */
function placed<E>(list: readonly At<E>[], incoming: At<E>, same: (a: At<E>) => boolean): At<E>[] {
  const standing = list.find((e) => e.id !== incoming.id && same(e));
  if (standing && !stands(incoming, standing)) return [...list];
  return [...list.filter((e) => e.id !== incoming.id && !same(e)), incoming];
}

const added = <E extends { id: string }>(list: readonly E[], entry: E): E[] => [...list.filter((e) => e.id !== entry.id), entry];
const without = <E extends { id: string }>(list: readonly E[], id: string): E[] => list.filter((e) => e.id !== id);

// eslint-disable-next-line complexity -- one exhaustive switch, a case for each kind of entry
function step(visit: VisitOnFile, op: Entry): VisitOnFile {
  const e = visit.entries;
  const withEntries = (change: Partial<Entries>): VisitOnFile => ({ ...visit, entries: { ...e, ...change } });
  switch (op.kind) {
    case 'visit.start':
      return {
        ...withEntries({ arrivedAt: e.arrivedAt ?? op.payload.arrivedAt }),
        status: visit.status === 'booked' ? 'started' : visit.status,
      };
    case 'finding.set': {
      const { replaces: _, ...p } = op.payload;
      return withEntries({
        findings: placed(
          e.findings,
          { id: op.id, at: op.madeAt, ...p },
          (f) => f.unitId === p.unitId && f.aspect === p.aspect && f.phase === p.phase,
        ),
      });
    }
    case 'reading.add': {
      const { replaces: _, entered: __, ...p } = op.payload;
      return withEntries({
        readings: placed(e.readings, { id: op.id, at: op.madeAt, ...p }, (r) => r.unitId === p.unitId && r.phase === p.phase),
      });
    }
    case 'unit.outcome':
      return withEntries({ outcomes: [...e.outcomes.filter((o) => o.unitId !== op.payload.unitId), op.payload] });
    case 'unit.add':
      return { ...visit, units: added(visit.units, newUnit(op.payload, op.madeAt.slice(0, 10))) };
    case 'task.take':
      return withTaken(visit, op.payload);
    case 'task.done':
      return withTask(visit, op.payload.taskId, { outcome: 'done', reason: '' });
    case 'task.not_done':
      return withTask(visit, op.payload.taskId, { outcome: 'not_done', reason: op.payload.reason });
    case 'photo.attach': {
      const { bytes: _, ...p } = op.payload;
      return withEntries({ photos: added(e.photos, { id: op.id, fileId: null, ...p }) });
    }
    case 'signature.set':
      return withEntries({ signature: { signedBy: op.payload.signedBy, nobodyThere: op.payload.nobodyThere } });
    case 'part.use':
      return withEntries({ parts: added(e.parts, { id: op.id, ...op.payload }) });
    case 'follow_up.add':
      return withEntries({ followUps: added(e.followUps, { id: op.id, ...op.payload }) });
    case 'job.outcome':
      return withEntries({
        jobOutcomes: placed(e.jobOutcomes ?? [], { id: op.id, at: op.madeAt, ...op.payload }, (o) => o.jobId === op.payload.jobId),
      });
    case 'food_warning.add':
      return withEntries({ foodWarnings: added(e.foodWarnings, { id: op.id, ...op.payload }) });
    case 'event.add':
      return withEntries({ events: added(e.events, { id: op.id, ...op.payload }) });
    case 'sealed.step':
      return withEntries({
        sealed: placed(
          e.sealed ?? [],
          { id: op.id, at: op.madeAt, ...op.payload },
          (s) => s.recordId === op.payload.recordId && s.step === op.payload.step,
        ),
      });
    case 'entry.strike':
      return withEntries(struck(e, op.payload));
    case 'visit.close':
      return visit.status === 'cancelled' ? visit : { ...withEntries({ leftAt: op.payload.leftAt }), status: 'done' };
  }
}

function struck(e: Entries, p: Payloads['entry.strike']): Partial<Entries> {
  if (p.what === 'part') return { parts: without(e.parts, p.entryId) };
  if (p.what === 'follow_up') return { followUps: without(e.followUps, p.entryId) };
  if (p.what === 'event') return { events: without(e.events, p.entryId) };
  return { photos: without(e.photos, p.entryId) };
}

/** The task joins the visit, if it is not on it. */
function withTaken(visit: VisitOnFile, { taskId, unitId }: Payloads['task.take']): VisitOnFile {
  const task = visit.units.find((u) => u.id === unitId)?.tasks.find((t) => t.taskId === taskId);
  if (!task || visit.tasks.some((t) => t.taskId === taskId)) return visit;
  return { ...visit, tasks: [...visit.tasks, { ...task, unitId, outcome: 'planned', reason: '' }] };
}

function withTask(visit: VisitOnFile, taskId: string, change: { outcome: 'done' | 'not_done'; reason: string }): VisitOnFile {
  return { ...visit, tasks: visit.tasks.map((t) => (t.taskId === taskId ? { ...t, ...change } : t)) };
}

/** A unit added on the spot, before the office has given it a label. */
function newUnit(p: Payloads['unit.add'], dueOn: string): UnitOnFile {
  const { unitId, taskIds = {}, replacesId: _, ...rest } = p;
  return {
    ...blankUnit(rest.kind),
    ...rest,
    id: unitId,
    compressorMap: null,
    baseline: null,
    pastLosses: [],
    past: [],
    thumbs: [],
    openFollowUps: [],
    oldDeposit: null,
    tasks: usualTasks({ ...blankUnit(rest.kind), ...rest }).flatMap((kindKey) => {
      const info = kindInfo(kindKey);
      const taskId = taskIds[kindKey];
      return info && taskId ? [{ taskId, kindKey, label: info.label, minutes: info.minutes, lowSide: info.lowSide, dueOn }] : [];
    }),
  };
}
