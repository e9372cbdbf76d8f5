import 'server-only';
import { STORED_AUDIT_DETAIL, type AuditDetail } from '../../../database/stored/records';
import type { Tx } from '../../../database/client';

/** Who changed a record last and which of its fields, or null. */
export async function lastChange(db: Tx, entity: string, entityId: string) {
  const entry = await db.auditEntry.findFirst({ where: { entity, entityId }, orderBy: { id: 'desc' } });
  if (!entry) return null;
  const by = entry.userId ? await db.user.findUnique({ where: { id: entry.userId }, select: { name: true } }) : null;
  const changed = STORED_AUDIT_DETAIL.read(entry.detail).changed;
  return { at: entry.at, by: by?.name ?? 'Someone', action: entry.action, fields: Object.keys(changed ?? {}), detail: entry.detail };
}

export type ChangeOnFile = { id: string; at: Date; by: string; action: string; changed: { field: string; from: unknown; to: unknown }[] };

/** What was done to a record, the latest first: who, when, and from what to what. */
export async function changesOf(db: Tx, entity: string, entityId: string, most = 50): Promise<ChangeOnFile[]> {
  const entries = await db.$queryRaw<
    { id: bigint; at: Date; userId: string | null; name: string | null; action: string; detail: unknown }[]
  >`
    SELECT a.id, a.at, a."userId", u.name, a.action, a.detail FROM "AuditEntry" a LEFT JOIN "User" u ON u.id = a."userId"
    WHERE a.entity = ${entity} AND a."entityId" = ${entityId} ORDER BY a.id DESC LIMIT ${most}`;
  return entries.map((e) => ({
    id: String(e.id),
    at: e.at,
    by: byWords(e.userId, e.name),
    action: e.action,
    changed: changedOf(STORED_AUDIT_DETAIL.read(e.detail)),
  }));
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
