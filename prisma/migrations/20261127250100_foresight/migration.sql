-- What was expected of a coil before somebody looked at it.
CREATE TABLE "Foresight" (
    "visitId" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "on" DATE NOT NULL,
    "madeAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "evidence" INTEGER NOT NULL,
    "modelVersion" TEXT NOT NULL,
    "chances" DOUBLE PRECISION[],
    "likely" INTEGER[],
    "likelyChance" DOUBLE PRECISION NOT NULL,
    "lnK" DOUBLE PRECISION NOT NULL,
    "lnKSd" DOUBLE PRECISION NOT NULL,
    "mattedChance" DOUBLE PRECISION NOT NULL,
    "mattedFrom" DATE,
    "mattedTo" DATE,
    "found" "Grade",
    "foundById" UUID,
    "readLnK" DOUBLE PRECISION,
    "readLnKSd" DOUBLE PRECISION,
    CONSTRAINT "Foresight_pkey" PRIMARY KEY ("visitId", "unitId"),
    CONSTRAINT "Foresight_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "Foresight_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Foresight_chances" CHECK (cardinality("chances") = 5)
);
CREATE INDEX "Foresight_on_idx" ON "Foresight"("on");
CREATE INDEX "Foresight_unitId_on_idx" ON "Foresight"("unitId", "on");

-- A page that judges what was said rests on this: what was expected is never changed in hindsight.
CREATE FUNCTION foresight_stands() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (NEW."on", NEW."madeAt", NEW."evidence", NEW."modelVersion", NEW."chances", NEW."likely", NEW."likelyChance", NEW."lnK", NEW."lnKSd", NEW."mattedChance", NEW."mattedFrom", NEW."mattedTo")
     IS DISTINCT FROM (OLD."on", OLD."madeAt", OLD."evidence", OLD."modelVersion", OLD."chances", OLD."likely", OLD."likelyChance", OLD."lnK", OLD."lnKSd", OLD."mattedChance", OLD."mattedFrom", OLD."mattedTo")
  THEN RAISE EXCEPTION 'foresight stands: what was expected is not changed afterwards'; END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER foresight_stands BEFORE UPDATE ON "Foresight" FOR EACH ROW EXECUTE FUNCTION foresight_stands();
