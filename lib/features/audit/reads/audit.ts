import 'server-only';
import type { ChangeOnFile } from '../../../core/audit/change';
import { RECORD_KINDS, type RecordKind } from '../../../core/audit/kinds';
import { isId } from '../../../core/ids/is-id';
import { groupBy } from '../../../core/numerics/group-by';
import { isOneOf } from '../../../core/typed/closed-set';
import { Prisma, type Tx } from '../../../database/client';
import { STORED_AUDIT_DETAIL, type AuditDetail } from '../../../database/stored/records';
import { namesOf, recordAndParts } from './records';

/** Who changed a record last and which of its fields, or null. */
export async function lastChange(db: Tx, entity: string, entityId: string) {
  const entry = await db.auditEntry.findFirst({ where: { entity, entityId }, orderBy: { id: 'desc' } });
  if (!entry) return null;
  const by = entry.userId ? await db.user.findUnique({ where: { id: entry.userId }, select: { name: true } }) : null;
  const changed = STORED_AUDIT_DETAIL.read(entry.detail).changed;
  return { at: entry.at, by: by?.name ?? 'Someone', action: entry.action, fields: Object.keys(changed ?? {}), detail: entry.detail };
}

type Line = { id: bigint; at: Date; userId: string | null; name: string | null; action: string; detail: unknown; part: string };

const asChange = ({ id, at, userId, name, action, detail, part }: Line): ChangeOnFile => {
  const { changed, ...more } = STORED_AUDIT_DETAIL.read(detail);
  return { id: String(id), at, by: byWords(userId, name), action, part, changed: changedOf({ changed }), more: Object.entries(more) };
};

/** What was done to a record and to what belongs to it, the latest first: who, when, and from what to what. */
export async function changesOf(db: Tx, kind: RecordKind, id: string, most = 50): Promise<ChangeOnFile[]> {
  const lines = await db.$queryRaw<Line[]>`
    SELECT a.id, a.at, a."userId", u.name, a.action, a.detail, r.part
    FROM (${recordAndParts(kind, id)}) r JOIN "AuditEntry" a ON a.entity = r.entity AND a."entityId" = r."entityId"
    LEFT JOIN "User" u ON u.id = a."userId" ORDER BY a.id DESC LIMIT ${most}`;
  return lines.map(asChange);
}

/** The same of several records of a list, by id; one to which nothing was done is not in it. */
export async function changesOfEach(db: Tx, kind: RecordKind, ids: readonly string[]): Promise<Map<string, ChangeOnFile[]>> {
  const lines = await db.$queryRaw<(Line & { entityId: string })[]>`
    SELECT a.id, a.at, a."userId", u.name, a.action, a.detail, a."entityId", '' AS part
    FROM "AuditEntry" a LEFT JOIN "User" u ON u.id = a."userId"
    WHERE a.entity = ${kind} AND a."entityId" = ANY(${ids}::text[]) ORDER BY a.id DESC`;
  return new Map([...groupBy(lines, (line) => line.entityId)].map(([id, of]) => [id, of.map(asChange)]));
}

/** A change with the record it was made to: `on` is the record on whose page it stands, '' where that page is one for all. */
export type ChangeOfAll = ChangeOnFile & { kind: string; record: string; on: string };
type Narrowed = { kind?: RecordKind; userId?: string; from?: Date; until?: Date; before?: bigint };

/**
 * A page of everything that was changed, the latest first, from after the one with the id `before`.
 * `until` is the first moment that no longer counts. `older`: the id to go on from, null at the end.
 */
export async function changesPage(db: Tx, { kind, userId, from, until, before }: Narrowed, most = 50) {
  const lines = await db.$queryRaw<(Line & { entity: string; entityId: string })[]>`
    SELECT a.id, a.at, a."userId", u.name, a.action, a.detail, a.entity, a."entityId", '' AS part
    FROM "AuditEntry" a LEFT JOIN "User" u ON u.id = a."userId"
    WHERE ${Prisma.join(
      [
        Prisma.sql`true`,
        ...(kind ? [Prisma.sql`a.entity = ${kind}`] : []),
        ...(userId ? [Prisma.sql`a."userId" = ${userId}::uuid`] : []),
        ...(from ? [Prisma.sql`a.at >= ${from}`] : []),
        ...(until ? [Prisma.sql`a.at < ${until}`] : []),
        ...(before === undefined ? [] : [Prisma.sql`(a.at, a.id) < (SELECT at, id FROM "AuditEntry" WHERE id = ${before})`]),
      ],
      ' AND ',
    )}
    ORDER BY a.at DESC, a.id DESC LIMIT ${most + 1}`;
  const shown = lines.slice(0, most);
  const names = await namesOnFile(db, shown);
  const changes = shown.map((line): ChangeOfAll => {
    const named = names.get(`${line.entity} ${line.entityId}`);
    return { ...asChange(line), kind: line.entity, record: named?.name ?? '', on: named?.on ?? '' };
  });
  return { changes, older: lines.length > most ? (changes.at(-1)?.id ?? null) : null };
}

/** Whoever was ever on file, by name. */
export const peopleToAskFor = (db: Tx) => db.user.findMany({ select: { id: true, name: true }, orderBy: { name: 'asc' } });

async function namesOnFile(db: Tx, lines: readonly { entity: string; entityId: string }[]) {
  const wanted = new Map<RecordKind, string[]>();
  for (const { entity, entityId } of lines)
    if (isOneOf(RECORD_KINDS, entity) && (entity === 'TaskKind' || isId(entityId)))
      wanted.set(entity, [...(wanted.get(entity) ?? []), entityId]);
  const asked = namesOf(wanted);
  const found = asked
    ? await db.$queryRaw<{ kind: string; id: string; name: string; on: string }[]>`SELECT * FROM (${asked}) n (kind, id, name, "on")`
    : [];
  return new Map(found.map((row) => [`${row.kind} ${row.id}`, row]));
}

const byWords = (userId: string | null, name: string | null | undefined) => (userId ? (name ?? 'Someone') : 'The program');

const changedOf = ({ changed }: AuditDetail) =>
  Object.entries(changed ?? {}).map(([field, pair]) => {
    const [from, to]: unknown[] = Array.isArray(pair) ? pair : [undefined, pair];
    return { field, from, to };
  });

const AT_ONCE = 1000;

/** Everything that was ever done, the first first, some at a time. `more`: what else was kept of it. */
export async function* auditAfter(db: Tx) {
  const people = new Map((await db.user.findMany({ select: { id: true, name: true } })).map((u) => [u.id, u.name]));
  for (let after = 0n; ;) {
    const entries = await db.auditEntry.findMany({ where: { id: { gt: after } }, orderBy: { id: 'asc' }, take: AT_ONCE });
    const last = entries.at(-1);
    if (!last) return;
    yield entries.map(({ detail, userId, at, action, entity, entityId }) => {
      const { changed, ...more } = STORED_AUDIT_DETAIL.read(detail);
      return { at, by: byWords(userId, userId && people.get(userId)), action, entity, entityId, changed: changedOf({ changed }), more };
    });
    after = last.id;
  }
}
