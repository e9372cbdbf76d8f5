import 'server-only';
import { STORED_AUDIT_DETAIL } from '../../../database/stored/records';
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
  const entries = await db.auditEntry.findMany({ where: { entity, entityId }, orderBy: { id: 'desc' }, take: most });
  const ids = [...new Set(entries.flatMap((e) => e.userId ?? []))];
  const people = new Map(
    (await db.user.findMany({ where: { id: { in: ids } }, select: { id: true, name: true } })).map((u) => [u.id, u.name]),
  );
  return entries.map((e) => ({
    id: String(e.id),
    at: e.at,
    by: e.userId ? (people.get(e.userId) ?? 'Someone') : 'The program',
    action: e.action,
    changed: Object.entries(STORED_AUDIT_DETAIL.read(e.detail).changed ?? {}).map(([field, pair]) => {
      const [from, to] = Array.isArray(pair) ? (pair as unknown[]) : [undefined, pair];
      return { field, from, to };
    }),
  }));
}
