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
  for (const entry of entries) if (entry.visitId === visit.id) visit = step(visit, entry);
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
function step(visit: VisitOnFile, entry: Entry): VisitOnFile {
  const e = visit.entries;
  const withEntries = (change: Partial<Entries>): VisitOnFile => ({ ...visit, entries: { ...e, ...change } });
  switch (entry.kind) {
    case 'visit.start':
      return {
        ...withEntries({ arrivedAt: e.arrivedAt ?? entry.payload.arrivedAt }),
        status: visit.status === 'booked' ? 'started' : visit.status,
      };
    case 'finding.set': {
      const { replaces: _, ...p } = entry.payload;
      return withEntries({
        findings: placed(
          e.findings,
          { id: entry.id, at: entry.madeAt, ...p },
          (f) => f.unitId === p.unitId && f.aspect === p.aspect && f.phase === p.phase,
        ),
      });
    }
    case 'reading.add': {
      const { replaces: _, entered: __, ...p } = entry.payload;
      return withEntries({
        readings: placed(e.readings, { id: entry.id, at: entry.madeAt, ...p }, (r) => r.unitId === p.unitId && r.phase === p.phase),
      });
    }
    case 'unit.outcome':
      return withEntries({ outcomes: [...e.outcomes.filter((o) => o.unitId !== entry.payload.unitId), entry.payload] });
    case 'unit.add':
      return { ...visit, units: added(visit.units, newUnit(entry.payload, entry.madeAt.slice(0, 10))) };
    case 'task.take':
      return withTaken(visit, entry.payload);
    case 'task.done':
      return withTask(visit, entry.payload.taskId, { outcome: 'done', reason: '' });
    case 'task.not_done':
      return withTask(visit, entry.payload.taskId, { outcome: 'not_done', reason: entry.payload.reason });
    case 'photo.attach': {
      const { bytes: _, ...p } = entry.payload;
      return withEntries({ photos: added(e.photos, { id: entry.id, fileId: null, ...p }) });
    }
    case 'signature.set':
      return withEntries({ signature: { signedBy: entry.payload.signedBy, nobodyThere: entry.payload.nobodyThere } });
    case 'part.use':
      return withEntries({ parts: added(e.parts, { id: entry.id, ...entry.payload }) });
    case 'follow_up.add':
      return withEntries({ followUps: added(e.followUps, { id: entry.id, ...entry.payload }) });
    case 'job.outcome':
      return withEntries({
        jobOutcomes: placed(
          e.jobOutcomes ?? [],
          { id: entry.id, at: entry.madeAt, ...entry.payload },
          (o) => o.jobId === entry.payload.jobId,
        ),
      });
    case 'food_warning.add':
      return withEntries({ foodWarnings: added(e.foodWarnings, { id: entry.id, ...entry.payload }) });
    case 'event.add':
      return withEntries({ events: added(e.events, { id: entry.id, ...entry.payload }) });
    case 'sealed.step':
      return withEntries({
        sealed: placed(
          e.sealed ?? [],
          { id: entry.id, at: entry.madeAt, ...entry.payload },
          (s) => s.recordId === entry.payload.recordId && s.step === entry.payload.step,
        ),
      });
    case 'entry.strike':
      return withEntries(struck(e, entry.payload));
    case 'visit.close':
      return visit.status === 'cancelled' ? visit : { ...withEntries({ leftAt: entry.payload.leftAt }), status: 'done' };
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
