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
