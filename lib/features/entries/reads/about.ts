import 'server-only';
import { labelOf } from '../../../core/typed/closed-set';
import { ENTRY_LABEL } from '../../../core/tablet';
import type { Tx } from '../../../database/client';

type Entry = { visitId: string | null; detail: unknown; payload: unknown };

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/** A field of something that may be anything: what could not be filed need not have the shape it should. */
const field = (of: unknown, key: string): unknown =>
  typeof of === 'object' && of !== null && Object.hasOwn(of, key) ? (of as Record<string, unknown>)[key] : undefined;
function idIn(of: unknown, key: string): string | null {
  const value = field(of, key);
  return typeof value === 'string' && UUID.test(value) ? value.toLowerCase() : null;
}
/** One filed without its visit names it apart; it may be on file again by now. */
const visitIdOf = (e: Entry) => e.visitId ?? idIn(e.detail, 'visitId');

const PLACE = { id: true, name: true, timeZone: true, customer: { select: { id: true, name: true } } } as const;
const UNIT = { id: true, name: true, kitchen: { select: PLACE } } as const;

/** Where some entries belong and what the ids in them stand for, as far as that is on file. */
export async function aboutEntries(db: Tx, entries: readonly Entry[]) {
  const ids = (idOf: (e: Entry) => string | null) => ({ in: [...new Set(entries.map(idOf))].filter((id): id is string => id !== null) });
  const visits = await db.visit.findMany({
    where: { id: ids(visitIdOf) },
    select: { id: true, startsAt: true, kitchen: { select: PLACE } },
  });
  const tasks = await db.task.findMany({
    where: { id: ids((e) => idIn(e.payload, 'taskId')) },
    select: { id: true, kind: { select: { label: true } }, unit: { select: UNIT } },
  });
  const units = await db.unit.findMany({ where: { id: ids((e) => idIn(e.payload, 'unitId')) }, select: UNIT });
  const jobs = await db.job.findMany({
    where: { id: ids((e) => idIn(e.payload, 'jobId')) },
    select: { id: true, number: true, what: true },
  });
  const struck = await db.entry.findMany({
    where: { id: ids((e) => idIn(e.payload, 'entryId')) },
    select: { id: true, kind: true, payload: true },
  });
  const hashes = entries.map((e) => field(e.payload, 'sha256')).filter((x) => typeof x === 'string');
  const files = await db.storedFile.findMany({ where: { sha256: { in: hashes } }, select: { id: true, sha256: true } });
  const names: Record<string, string> = Object.fromEntries([
    ...units.map((u) => [u.id, u.name]),
    ...tasks.map((t) => [t.id, `${t.kind.label} of ${t.unit.name}`]),
    ...jobs.map((j) => [j.id, `${j.number}. ${j.what}`]),
    ...struck.map((o) => [o.id, entryName(o)]),
  ]);

  return (e: Entry) => {
    const visit = visits.find((v) => v.id === visitIdOf(e)) ?? null;
    const task = tasks.find((t) => t.id === idIn(e.payload, 'taskId'));
    const unit = units.find((u) => u.id === idIn(e.payload, 'unitId')) ?? task?.unit ?? null;
    return {
      kitchen: visit?.kitchen ?? unit?.kitchen ?? null,
      visit: visit && { id: visit.id, startsAt: visit.startsAt.getTime() },
      unit: unit && { id: unit.id, name: unit.name },
      names,
      fileId: files.find((f) => f.sha256 === field(e.payload, 'sha256'))?.id ?? null,
    };
  };
}

function entryName({ kind, payload }: { kind: string; payload: unknown }): string {
  const label = labelOf(ENTRY_LABEL, kind);
  const what = field(payload, 'what') ?? field(payload, 'note');
  return typeof what === 'string' && what !== '' ? `${label}: ${what}` : label;
}
