-- Who changed what is only ever added to. Nobody edits or takes away a line of it, however they reach the database's tables.
CREATE FUNCTION audit_append_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'audit is only ever added to';
END $$;
CREATE TRIGGER audit_append_only BEFORE UPDATE OR DELETE ON "AuditEntry" FOR EACH ROW EXECUTE FUNCTION audit_append_only();
CREATE TRIGGER audit_not_emptied BEFORE TRUNCATE ON "AuditEntry" FOR EACH STATEMENT EXECUTE FUNCTION audit_append_only();
