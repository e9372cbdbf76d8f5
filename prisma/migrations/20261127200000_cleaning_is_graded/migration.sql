-- A coil cleaning without the coil's grade as found and as left is not done. Where a tablet closes a visit without them,
-- the closing leaves the task undone; this is the rule itself. What is on file from before stays as it is.
CREATE FUNCTION cleaning_ungraded(visit uuid, unit uuid, kind text) RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT kind = 'coil_cleaning'
    AND EXISTS (SELECT 1 FROM "Unit" u WHERE u.id = unit AND unit_has(u.kind, u."condenserKind", 'coil'))
    AND (SELECT count(DISTINCT f.phase) FROM "Finding" f
      WHERE f."visitId" = visit AND f."unitId" = unit AND f.aspect = 'coil' AND f.grade IS NOT NULL AND f."supersededAt" IS NULL) < 2
$$;

CREATE FUNCTION visit_two_grades() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE missing text;
BEGIN
  IF NEW.status <> 'done' THEN RETURN NULL; END IF;
  SELECT u.name INTO missing
  FROM "VisitTask" vt
  JOIN "Task" t ON t.id = vt."taskId"
  JOIN "Unit" u ON u.id = vt."unitId"
  WHERE vt."visitId" = NEW.id AND vt.outcome = 'done' AND cleaning_ungraded(NEW.id, vt."unitId", t."kindKey")
  LIMIT 1;
  IF missing IS NOT NULL THEN
    RAISE EXCEPTION 'coil not graded as found and as left: %', missing USING ERRCODE = 'check_violation', CONSTRAINT = 'visit_two_grades';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER visit_two_grades AFTER INSERT OR UPDATE OF status ON "Visit"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION visit_two_grades();

CREATE FUNCTION visit_task_two_grades() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  -- As the row stands when it is checked: what was said done and is not any more breaks nothing.
  IF EXISTS (
    SELECT 1 FROM "VisitTask" vt
    JOIN "Visit" v ON v.id = vt."visitId" AND v.status = 'done'
    JOIN "Task" t ON t.id = vt."taskId"
    WHERE vt.id = NEW.id AND vt.outcome = 'done' AND cleaning_ungraded(vt."visitId", vt."unitId", t."kindKey")) THEN
    RAISE EXCEPTION 'coil not graded as found and as left' USING ERRCODE = 'check_violation', CONSTRAINT = 'visit_task_two_grades';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER visit_task_two_grades AFTER INSERT OR UPDATE OF outcome ON "VisitTask"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION visit_task_two_grades();
