-- Who in the office looked at an entry that was not simply filed, and what came of it.
ALTER TABLE "Operation" ADD COLUMN "settledAt" TIMESTAMPTZ;
ALTER TABLE "Operation" ADD COLUMN "settledById" UUID;
ALTER TABLE "Operation" ADD COLUMN "settledNote" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Operation" ADD CONSTRAINT "Operation_settledById_fkey" FOREIGN KEY ("settledById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "Operation" ADD CONSTRAINT operation_settled_by_someone CHECK (("settledAt" IS NULL) = ("settledById" IS NULL));
ALTER TABLE "Operation" ADD CONSTRAINT operation_settled_has_question CHECK ("settledAt" IS NULL OR outcome <> 'applied');
ALTER TABLE "Operation" ADD CONSTRAINT operation_settled_note CHECK ("settledAt" IS NOT NULL OR "settledNote" = '');

-- An operation is never changed; it is settled once.
CREATE FUNCTION operation_only_settled() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE settling text[] := ARRAY['settledAt', 'settledById', 'settledNote'];
BEGIN
  IF OLD."settledAt" IS NOT NULL OR to_jsonb(NEW) - settling IS DISTINCT FROM to_jsonb(OLD) - settling THEN
    RAISE EXCEPTION 'an operation is never changed: %', OLD.id USING ERRCODE = 'check_violation', CONSTRAINT = 'operation_only_settled';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER operation_only_settled BEFORE UPDATE ON "Operation" FOR EACH ROW EXECUTE FUNCTION operation_only_settled();

-- Counted on every page of the office, and listed newest first.
CREATE INDEX operation_to_look_at ON "Operation" ("receivedAt", "deviceSeq", id) WHERE outcome <> 'applied' AND "settledAt" IS NULL;
CREATE INDEX operation_settled ON "Operation" ("settledAt", id) WHERE "settledAt" IS NOT NULL;
