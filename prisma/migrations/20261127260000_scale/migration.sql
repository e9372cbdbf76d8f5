-- What pages of a large shop ask for, found without reading a whole table.
CREATE INDEX "VisitTask_unitId_idx" ON "VisitTask"("unitId");
CREATE INDEX "Visit_status_endsAt_idx" ON "Visit"("status", "endsAt");
CREATE INDEX "RuleChange_kind_review_at_idx" ON "RuleChange"("kind", "review", "at");

-- Standard minutes of what was done at a visit: how long work takes at a kitchen is learned from them, over all visits there were.
-- Kept by the database itself, so that no way of answering a task can forget it.
ALTER TABLE "Visit" ADD COLUMN "doneMinutes" DOUBLE PRECISION NOT NULL DEFAULT 0;
CREATE FUNCTION visit_done_minutes() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  UPDATE "Visit" v SET "doneMinutes" = s.minutes
  FROM (
    SELECT c."visitId", coalesce(sum(k.minutes) FILTER (WHERE vt.outcome = 'done'), 0) AS minutes
    FROM (SELECT DISTINCT "visitId" FROM changed) c
    LEFT JOIN "VisitTask" vt ON vt."visitId" = c."visitId"
    LEFT JOIN "Task" t ON t.id = vt."taskId"
    LEFT JOIN "TaskKind" k ON k.key = t."kindKey"
    GROUP BY c."visitId"
  ) s
  WHERE v.id = s."visitId" AND v."doneMinutes" <> s.minutes;
  RETURN NULL;
END $$;
CREATE TRIGGER visit_done_minutes_made AFTER INSERT ON "VisitTask" REFERENCING NEW TABLE AS changed
  FOR EACH STATEMENT EXECUTE FUNCTION visit_done_minutes();
CREATE TRIGGER visit_done_minutes_changed AFTER UPDATE ON "VisitTask" REFERENCING NEW TABLE AS changed
  FOR EACH STATEMENT EXECUTE FUNCTION visit_done_minutes();
CREATE TRIGGER visit_done_minutes_gone AFTER DELETE ON "VisitTask" REFERENCING OLD TABLE AS changed
  FOR EACH STATEMENT EXECUTE FUNCTION visit_done_minutes();
UPDATE "Visit" v SET "doneMinutes" = s.minutes
FROM (
  SELECT vt."visitId", sum(k.minutes) AS minutes
  FROM "VisitTask" vt JOIN "Task" t ON t.id = vt."taskId" JOIN "TaskKind" k ON k.key = t."kindKey"
  WHERE vt.outcome = 'done' GROUP BY vt."visitId"
) s
WHERE v.id = s."visitId" AND s.minutes > 0;
