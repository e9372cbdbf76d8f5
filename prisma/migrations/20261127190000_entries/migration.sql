-- What a tablet sends is an entry everywhere else; here it was still called an operation. Nothing on file changes.
ALTER TYPE "OperationOutcome" RENAME TO "EntryOutcome";
ALTER TABLE "Operation" RENAME TO "Entry";
ALTER TABLE "Entry" RENAME CONSTRAINT "Operation_pkey" TO "Entry_pkey";
ALTER TABLE "Entry" RENAME CONSTRAINT "Operation_deviceId_fkey" TO "Entry_deviceId_fkey";
ALTER TABLE "Entry" RENAME CONSTRAINT "Operation_settledById_fkey" TO "Entry_settledById_fkey";
ALTER TABLE "Entry" RENAME CONSTRAINT operation_seq_positive TO entry_seq_positive;
ALTER TABLE "Entry" RENAME CONSTRAINT operation_settled_by_someone TO entry_settled_by_someone;
ALTER TABLE "Entry" RENAME CONSTRAINT operation_settled_has_question TO entry_settled_has_question;
ALTER TABLE "Entry" RENAME CONSTRAINT operation_settled_note TO entry_settled_note;
ALTER INDEX "Operation_visitId_idx" RENAME TO "Entry_visitId_idx";
ALTER INDEX "Operation_deviceId_deviceSeq_key" RENAME TO "Entry_deviceId_deviceSeq_key";
ALTER INDEX operation_to_look_at RENAME TO entry_to_look_at;
ALTER INDEX operation_settled RENAME TO entry_settled;

-- An entry is never changed; it is settled once.
DROP TRIGGER operation_only_settled ON "Entry";
DROP FUNCTION operation_only_settled();
CREATE FUNCTION entry_only_settled() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE settling text[] := ARRAY['settledAt', 'settledById', 'settledNote'];
BEGIN
  IF OLD."settledAt" IS NOT NULL OR to_jsonb(NEW) - settling IS DISTINCT FROM to_jsonb(OLD) - settling THEN
    RAISE EXCEPTION 'an entry is never changed: %', OLD.id USING ERRCODE = 'check_violation', CONSTRAINT = 'entry_only_settled';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER entry_only_settled BEFORE UPDATE ON "Entry" FOR EACH ROW EXECUTE FUNCTION entry_only_settled();
