import 'server-only';
import type { Prisma, Tx } from '../../../database/client';

export type AuditNote = {
  at: Date;
  userId: string | null;
  action: string;
  entity: string;
  entityId: string;
  detail?: Prisma.InputJsonObject;
};

export const writeAudit = (db: Tx, note: AuditNote) => db.auditEntry.create({ data: note });
