-- "What was changed" is read a page at a time, the latest first: of all, of one kind of record, by one person.
DROP INDEX "AuditEntry_at_idx";
CREATE INDEX "AuditEntry_at_id_idx" ON "AuditEntry" (at, id);
CREATE INDEX "AuditEntry_entity_at_id_idx" ON "AuditEntry" (entity, at, id);
CREATE INDEX "AuditEntry_userId_at_id_idx" ON "AuditEntry" ("userId", at, id);
