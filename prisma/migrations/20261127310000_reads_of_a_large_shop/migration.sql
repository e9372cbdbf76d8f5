-- Of an estimate, what many are asked for at once: the whole result is some kilobytes and would be unpacked for it. Kept by the
-- database itself, so that it never differs from the result.
ALTER TABLE "Estimate"
  ADD COLUMN "rise" JSONB GENERATED ALWAYS AS (result -> 'designRiseK') STORED,
  ADD COLUMN "leading" TEXT GENERATED ALWAYS AS (result -> 'causes' -> 0 ->> 'id') STORED,
  ADD COLUMN "sentence" TEXT GENERATED ALWAYS AS (result ->> 'sentence') STORED;

-- The latest pictures of a unit.
CREATE INDEX "Photo_unitId_takenAt_idx" ON "Photo"("unitId", "takenAt");
