-- A coil cleaning answered "done" on a visit that is closed already needs its low side looked at like any other: the
-- rule held when a visit was closed, and an entry that came later could break it.
CREATE FUNCTION visit_task_low_side_looked_at() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.outcome <> 'done'
    OR NOT EXISTS (SELECT 1 FROM "Visit" v WHERE v.id = NEW."visitId" AND v.status = 'done')
    OR NOT EXISTS (SELECT 1 FROM "Task" t WHERE t.id = NEW."taskId" AND t."kindKey" = 'coil_cleaning') THEN RETURN NULL; END IF;
  IF (SELECT count(DISTINCT f.aspect) FROM "Finding" f WHERE f."visitId" = NEW."visitId" AND f."unitId" = NEW."unitId" AND f.aspect IN ('ice', 'drain') AND f."supersededAt" IS NULL) < 2 THEN
    RAISE EXCEPTION 'low side not looked at' USING ERRCODE = 'check_violation', CONSTRAINT = 'visit_task_low_side_looked_at';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER visit_task_low_side_looked_at AFTER INSERT OR UPDATE OF outcome ON "VisitTask"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION visit_task_low_side_looked_at();
