-- The condenser's fan and the evaporator's are two things, and dirt on the evaporator's coil is graded too.
CREATE TYPE "Aspect" AS ENUM ('coil', 'condenser_fan', 'ice', 'evaporator_coil', 'evaporator_fan', 'drain', 'gasket');
CREATE TYPE "Grade" AS ENUM ('bare', 'filmed', 'furred', 'matted', 'packed', 'sound', 'worn', 'failed', 'dry', 'even_frost', 'part_iced', 'bridged', 'block', 'clean', 'dusty', 'clogged', 'choked', 'runs', 'slow', 'blocked', 'frozen', 'broken');
CREATE TYPE "FindingPhase" AS ENUM ('found', 'left');

-- "Fans" of until now was read as the condenser's wherever anything was made of it. Where all turned, so did both; where
-- one did not, which of them was not written down, and the finding says so.
INSERT INTO "Finding" (id, "visitId", "unitId", aspect, grade, "notLookedWhy", phase, note, at, "byUserId", "deviceId", "supersededAt")
  SELECT gen_random_uuid(), "visitId", "unitId", 'evaporator_fan', grade, "notLookedWhy", phase, note, at, "byUserId", "deviceId", "supersededAt"
  FROM "Finding" WHERE aspect = 'fan' AND (grade = 'sound' OR grade IS NULL);
UPDATE "Finding" SET note = concat_ws(' ', nullif(note, ''), 'Graded as “Fans”, before the condenser’s and the evaporator’s were told apart.')
  WHERE aspect = 'fan' AND grade IN ('worn', 'failed');
UPDATE "Finding" SET aspect = 'condenser_fan' WHERE aspect = 'fan';
UPDATE "Photo" SET aspect = 'condenser_fan' WHERE aspect = 'fan';

-- They name the columns, and are made anew below.
DROP TRIGGER visit_low_side_looked_at ON "Visit";
DROP TRIGGER visit_task_low_side_looked_at ON "VisitTask";
ALTER TABLE "Finding" DROP CONSTRAINT finding_phase;
ALTER TABLE "Finding"
  ALTER COLUMN aspect TYPE "Aspect" USING aspect::"Aspect",
  ALTER COLUMN grade TYPE "Grade" USING grade::"Grade",
  ALTER COLUMN phase DROP DEFAULT,
  ALTER COLUMN phase TYPE "FindingPhase" USING phase::"FindingPhase",
  ALTER COLUMN phase SET DEFAULT 'found';
ALTER TABLE "Photo" ALTER COLUMN aspect TYPE "Aspect" USING aspect::"Aspect";

-- A grade is one of its aspect's.
ALTER TABLE "Finding" ADD CONSTRAINT finding_grade_of_aspect CHECK (grade IS NULL OR CASE aspect
  WHEN 'coil' THEN grade IN ('bare', 'filmed', 'furred', 'matted', 'packed')
  WHEN 'condenser_fan' THEN grade IN ('sound', 'worn', 'failed')
  WHEN 'ice' THEN grade IN ('dry', 'even_frost', 'part_iced', 'bridged', 'block')
  WHEN 'evaporator_coil' THEN grade IN ('clean', 'dusty', 'clogged', 'choked')
  WHEN 'evaporator_fan' THEN grade IN ('sound', 'worn', 'failed')
  WHEN 'drain' THEN grade IN ('runs', 'slow', 'blocked', 'frozen', 'broken')
  WHEN 'gasket' THEN grade IN ('sound', 'worn', 'failed')
  ELSE false END);

-- What a task asks for before it counts stands with its kind; the same as TASK_KINDS in lib/core/tasks (a test compares them).
ALTER TABLE "TaskKind" ADD COLUMN "neededBeforeClosing" "Aspect"[] NOT NULL DEFAULT '{}';
UPDATE "TaskKind" SET "neededBeforeClosing" = '{ice,drain}' WHERE key = 'coil_cleaning';

-- Which needed aspects of a done task carry neither a grade nor a reason on its visit.
CREATE FUNCTION task_unlooked(visit uuid, unit uuid, kind text) RETURNS "Aspect"[] LANGUAGE sql STABLE AS $$
  SELECT array_agg(a) FROM "TaskKind" k, unnest(k."neededBeforeClosing") a
  WHERE k.key = kind AND NOT EXISTS (
    SELECT 1 FROM "Finding" f WHERE f."visitId" = visit AND f."unitId" = unit AND f.aspect = a AND f."supersededAt" IS NULL)
$$;

CREATE OR REPLACE FUNCTION visit_low_side_looked_at() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE missing text;
BEGIN
  IF NEW.status <> 'done' THEN RETURN NULL; END IF;
  SELECT u.name INTO missing
  FROM "VisitTask" vt
  JOIN "Task" t ON t.id = vt."taskId"
  JOIN "Unit" u ON u.id = vt."unitId"
  WHERE vt."visitId" = NEW.id AND vt.outcome = 'done' AND task_unlooked(NEW.id, vt."unitId", t."kindKey") IS NOT NULL
  LIMIT 1;
  IF missing IS NOT NULL THEN
    RAISE EXCEPTION 'low side not looked at: %', missing USING ERRCODE = 'check_violation', CONSTRAINT = 'visit_low_side_looked_at';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER visit_low_side_looked_at AFTER INSERT OR UPDATE OF status ON "Visit"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION visit_low_side_looked_at();

CREATE OR REPLACE FUNCTION visit_task_low_side_looked_at() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.outcome <> 'done' OR NOT EXISTS (SELECT 1 FROM "Visit" v WHERE v.id = NEW."visitId" AND v.status = 'done') THEN RETURN NULL; END IF;
  IF EXISTS (SELECT 1 FROM "Task" t WHERE t.id = NEW."taskId" AND task_unlooked(NEW."visitId", NEW."unitId", t."kindKey") IS NOT NULL) THEN
    RAISE EXCEPTION 'low side not looked at' USING ERRCODE = 'check_violation', CONSTRAINT = 'visit_task_low_side_looked_at';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER visit_task_low_side_looked_at AFTER INSERT OR UPDATE OF outcome ON "VisitTask"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION visit_task_low_side_looked_at();
