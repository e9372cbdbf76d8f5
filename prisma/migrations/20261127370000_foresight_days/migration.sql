-- What was expected beside what was met, summed up by day: "Is it right?" goes through a year of a large shop's looks, some hundred
-- thousand. Sums are worked out by the queue (keepForesightDays); a day of which anything changed since is marked here by the database,
-- and a page goes through its looks themselves. So what a page tells is never old, and whoever closes a visit waits for nobody.
CREATE TABLE "ForesightDay" (
  "on" DATE NOT NULL,
  -- Kind of unit or person, and which.
  by TEXT NOT NULL,
  of TEXT NOT NULL,
  graded INTEGER NOT NULL,
  "gradeHits" INTEGER NOT NULL,
  "gradeExpected" DOUBLE PRECISION NOT NULL,
  matted INTEGER NOT NULL,
  "mattedExpected" DOUBLE PRECISION NOT NULL,
  "mattedVariance" DOUBLE PRECISION NOT NULL,
  "tooEarly" INTEGER NOT NULL,
  "tooLate" INTEGER NOT NULL,
  read INTEGER NOT NULL,
  "readHits" INTEGER NOT NULL,
  worse DOUBLE PRECISION NOT NULL,
  "worseSquares" DOUBLE PRECISION NOT NULL,
  CONSTRAINT "ForesightDay_pkey" PRIMARY KEY ("on", by, of),
  CONSTRAINT "ForesightDay_by" CHECK (by IN ('kind', 'who'))
);

-- Marks are only ever added by those who write looks: a mark of a transaction that the sums did not see yet outlives their working out.
CREATE TABLE "ForesightMark" (
  id UUID NOT NULL DEFAULT gen_random_uuid(),
  "on" DATE NOT NULL,
  CONSTRAINT "ForesightMark_pkey" PRIMARY KEY (id)
);

CREATE FUNCTION foresight_marks() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  INSERT INTO "ForesightMark" ("on") SELECT DISTINCT c."on" FROM changed c;
  RETURN NULL;
END $$;
CREATE TRIGGER foresight_marks_made AFTER INSERT ON "Foresight" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION foresight_marks();
CREATE TRIGGER foresight_marks_changed AFTER UPDATE ON "Foresight" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION foresight_marks();
CREATE TRIGGER foresight_marks_gone AFTER DELETE ON "Foresight" REFERENCING OLD TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION foresight_marks();

-- A unit that turns out to be of another kind takes its looks along.
CREATE FUNCTION foresight_marks_of_units() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  INSERT INTO "ForesightMark" ("on") SELECT DISTINCT f."on" FROM former o JOIN changed c ON c.id = o.id AND c.kind <> o.kind JOIN "Foresight" f ON f."unitId" = c.id;
  RETURN NULL;
END $$;
CREATE TRIGGER foresight_marks_of_units AFTER UPDATE ON "Unit" REFERENCING OLD TABLE AS former NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION foresight_marks_of_units();

INSERT INTO "ForesightMark" ("on") SELECT DISTINCT "on" FROM "Foresight" ORDER BY 1;

-- The chance that the grade that was found had had: the least expected looks are asked for by it.
CREATE FUNCTION foresight_met(found "Grade", chances double precision[]) RETURNS double precision LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT chances[CASE found WHEN 'bare' THEN 1 WHEN 'filmed' THEN 2 WHEN 'furred' THEN 3 WHEN 'matted' THEN 4 WHEN 'packed' THEN 5 END]
$$;
CREATE INDEX "Foresight_met_idx" ON "Foresight" (foresight_met(found, chances), "on" DESC) WHERE evidence > 0 AND found IS NOT NULL;
