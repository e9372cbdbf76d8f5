-- Rules that must hold whatever the application does.
CREATE EXTENSION IF NOT EXISTS btree_gist;
CREATE EXTENSION IF NOT EXISTS pg_trgm;

-- One technician is in one place at a time.
ALTER TABLE "Visit" ADD CONSTRAINT visit_ends_after_start CHECK ("endsAt" > "startsAt");
ALTER TABLE "Visit" ADD CONSTRAINT visit_technician_no_overlap
  EXCLUDE USING gist ("technicianId" WITH =, tstzrange("startsAt", "endsAt", '[)') WITH &&) WHERE (status <> 'cancelled');
ALTER TABLE "Visit" ADD CONSTRAINT visit_cancel_has_reason CHECK (status <> 'cancelled' OR "cancelReason" <> '');

-- A task stands on one open visit only.
CREATE UNIQUE INDEX visit_task_one_open ON "VisitTask" ("taskId") WHERE open;
ALTER TABLE "VisitTask" ADD CONSTRAINT visit_task_not_done_has_reason CHECK (outcome <> 'not_done' OR reason <> '');

-- A finding is a grade, or says why it was not looked at; one current finding an aspect and phase.
ALTER TABLE "Finding" ADD CONSTRAINT finding_grade_or_reason CHECK ((grade IS NOT NULL) <> ("notLookedWhy" <> ''));
ALTER TABLE "Finding" ADD CONSTRAINT finding_phase CHECK (phase IN ('found', 'left'));
CREATE UNIQUE INDEX finding_one_current ON "Finding" ("visitId", "unitId", aspect, phase) WHERE "supersededAt" IS NULL;
CREATE UNIQUE INDEX reading_one_current ON "Reading" ("visitId", "unitId", phase) WHERE "supersededAt" IS NULL AND phase <> 'log';

ALTER TABLE "UnitVisit" ADD CONSTRAINT unit_visit_reason CHECK (outcome <> 'could_not_reach' OR reason <> '');

-- A coil cleaning is closed only with the low side looked at: ice and drain graded, or why not.
CREATE FUNCTION visit_low_side_looked_at() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE missing text;
BEGIN
  IF NEW.status <> 'done' THEN RETURN NULL; END IF;
  SELECT u.name INTO missing
  FROM "VisitTask" vt
  JOIN "Task" t ON t.id = vt."taskId"
  JOIN "Unit" u ON u.id = vt."unitId"
  WHERE vt."visitId" = NEW.id AND vt.outcome = 'done' AND t."kindKey" = 'coil_cleaning'
    AND (NOT EXISTS (SELECT 1 FROM "Finding" f WHERE f."visitId" = NEW.id AND f."unitId" = vt."unitId" AND f.aspect = 'ice' AND f."supersededAt" IS NULL)
      OR NOT EXISTS (SELECT 1 FROM "Finding" f WHERE f."visitId" = NEW.id AND f."unitId" = vt."unitId" AND f.aspect = 'drain' AND f."supersededAt" IS NULL))
  LIMIT 1;
  IF missing IS NOT NULL THEN
    RAISE EXCEPTION 'low side not looked at: %', missing USING ERRCODE = 'check_violation', CONSTRAINT = 'visit_low_side_looked_at';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER visit_low_side_looked_at AFTER INSERT OR UPDATE OF status ON "Visit"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION visit_low_side_looked_at();

-- Grounds and bounds.
ALTER TABLE "ShopSettings" ADD CONSTRAINT one_shop CHECK (id = 1);
ALTER TABLE "Task" ADD CONSTRAINT task_rule_present CHECK (rule <> '');
ALTER TABLE "Task" ADD CONSTRAINT task_bounds CHECK ("minWeeks" >= 1 AND "maxWeeks" >= "minWeeks");
ALTER TABLE "RuleChange" ADD CONSTRAINT rule_change_has_reason CHECK (reason <> '');
ALTER TABLE "Kitchen" ADD CONSTRAINT kitchen_altitude CHECK ("altitudeM" BETWEEN -430 AND 5000);
ALTER TABLE "Kitchen" ADD CONSTRAINT kitchen_price CHECK ("energyPricePerKwh" IS NULL OR "energyPricePerKwh" >= 0);
ALTER TABLE "Kitchen" ADD CONSTRAINT kitchen_place CHECK ((lat IS NULL) = (lng IS NULL) AND lat BETWEEN -90 AND 90 AND lng BETWEEN -180 AND 180);
ALTER TABLE "Unit" ADD CONSTRAINT unit_charge CHECK ("chargeKg" IS NULL OR "chargeKg" > 0);
ALTER TABLE "User" ADD CONSTRAINT user_email_lower CHECK (email = lower(email) AND email <> '');
ALTER TABLE "TimeOff" ADD CONSTRAINT time_off_range CHECK ("endsOn" > "startsOn");
ALTER TABLE "KitchenBlackout" ADD CONSTRAINT blackout_range CHECK ("endsOn" > "startsOn");
ALTER TABLE "Reading" ADD CONSTRAINT reading_in_kelvin CHECK (
  coalesce("condensingClampK", 300) BETWEEN 150 AND 600 AND coalesce("airInK", 300) BETWEEN 200 AND 400 AND
  coalesce("liquidLineK", 300) BETWEEN 150 AND 600 AND coalesce("dischargeLineK", 300) BETWEEN 150 AND 700 AND
  coalesce("headPaGauge", 0) BETWEEN -110000 AND 20000000);

-- The due list reads active tasks by date; search reads names.
CREATE INDEX task_due ON "Task" ("dueOn", id) WHERE active;
CREATE INDEX task_due_kitchen ON "Task" ("kitchenId", "dueOn") WHERE active;
CREATE INDEX kitchen_name_trgm ON "Kitchen" USING gin (name gin_trgm_ops);
CREATE INDEX customer_name_trgm ON "Customer" USING gin (name gin_trgm_ops);
CREATE INDEX unit_name_trgm ON "Unit" USING gin (name gin_trgm_ops);
