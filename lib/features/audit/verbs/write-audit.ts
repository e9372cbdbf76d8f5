import 'server-only';
import type { Tx } from '../../../database/client';
import type { ServiceContext } from '../../context';
import { STORED_AUDIT_DETAIL, type AuditDetail } from '../../../database/stored/records';

export type AuditNote = {
  at: Date;
  userId: string | null | undefined;
  action: string;
  entity: string;
  entityId?: string;
  detail?: AuditDetail;
};

/** One line of who did what, for good. */
export const writeAudit = (db: Tx, note: AuditNote) =>
  db.auditEntry.create({ data: { ...note, detail: STORED_AUDIT_DETAIL.write(note.detail ?? {}) } });

/** The same of what a verb was asked to do, by whoever asked. */
export const auditBy = (db: Tx, { actor, now }: Pick<ServiceContext, 'actor' | 'now'>, note: Omit<AuditNote, 'at' | 'userId'>) =>
  writeAudit(db, { at: now, userId: actor?.userId ?? null, ...note });
