-- A condenser that water cools has no fins to clean: what is done at it has a kind of its own. The same as TASK_KINDS in
-- lib/core/tasks (a test compares them).
INSERT INTO "TaskKind" (key, label, minutes, "lowSide", "neededBeforeClosing", "defaultWeeks", "minWeeks", "maxWeeks", sort)
VALUES ('water_side_check', 'Water side check', 18, false, '{ice,drain}', 26, 4, 52, 4);

-- A unit's task is the one for what cools it: with its rule, dates and history, and a line in them. Where a unit has both
-- (one was added by hand), they are left as they are.
CREATE FUNCTION fit_condenser_task(unit uuid, condenser "CondenserKind") RETURNS void LANGUAGE plpgsql AS $$
DECLARE
  fits text := CASE WHEN condenser = 'water_cooled' THEN 'water_side_check' ELSE 'coil_cleaning' END;
  other text := CASE WHEN condenser = 'water_cooled' THEN 'coil_cleaning' ELSE 'water_side_check' END;
BEGIN
  IF EXISTS (SELECT 1 FROM "Task" WHERE "unitId" = unit AND "kindKey" = fits) THEN RETURN; END IF;
  WITH fitted AS (
    UPDATE "Task" t SET "kindKey" = fits, version = t.version + 1 WHERE t."unitId" = unit AND t."kindKey" = other RETURNING t.*)
  INSERT INTO "RuleChange" (id, "taskId", kind, "fromRule", "toRule", "fromDueOn", "toDueOn", reason)
  SELECT gen_random_uuid(), id, 'edited', rule, rule, "dueOn", "dueOn",
    CASE WHEN condenser = 'water_cooled' THEN 'Water cools this condenser: a water side check, no longer a coil cleaning.'
      ELSE 'Air cools this condenser: a coil cleaning, no longer a water side check.' END
  FROM fitted;
END $$;

CREATE FUNCTION unit_condenser_task() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM fit_condenser_task(NEW.id, NEW."condenserKind");
  RETURN NULL;
END $$;
CREATE TRIGGER unit_condenser_task AFTER UPDATE OF "condenserKind" ON "Unit" FOR EACH ROW
  WHEN ((OLD."condenserKind" = 'water_cooled') IS DISTINCT FROM (NEW."condenserKind" = 'water_cooled'))
  EXECUTE FUNCTION unit_condenser_task();

-- What is on file from before:
SELECT fit_condenser_task(id, "condenserKind") FROM "Unit" WHERE "condenserKind" = 'water_cooled';

-- An ice machine's evaporator makes the ice: it is looked at where it is cleaned and sanitised, and comes due no more by
-- itself. What stands on a booked visit stays there; visits and changes stay.
WITH off AS (
  UPDATE "Task" t SET active = false, version = t.version + 1
  FROM "Unit" u WHERE u.id = t."unitId" AND u.kind = 'ice_machine' AND t."kindKey" = 'evaporator_inspection' AND t.active
  RETURNING t.*)
INSERT INTO "RuleChange" (id, "taskId", kind, "fromRule", "toRule", "fromDueOn", "toDueOn", reason)
SELECT gen_random_uuid(), id, 'edited', rule, rule, "dueOn", "dueOn",
  'Taken off: an ice machine’s evaporator is looked at where it is cleaned and sanitised.'
FROM off;
