-- A part used may be one of the shop's list: then it is known from where it was taken, the list is counted down, and its warranty begins.
CREATE TYPE "PartPlace" AS ENUM ('van', 'shop');
ALTER TABLE "PartUsed" ADD COLUMN "place" "PartPlace", ADD COLUMN "taken" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "PartUsed" DROP CONSTRAINT "PartUsed_partId_fkey";
ALTER TABLE "PartUsed" ADD CONSTRAINT "PartUsed_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
-- Only what lies somewhere on the list is counted down there, and never more pieces than were used.
ALTER TABLE "PartUsed" ADD CONSTRAINT part_used_taken CHECK (
  taken >= 0 AND taken <= ceil(quantity) AND (taken = 0 OR ("partId" IS NOT NULL AND place IS NOT NULL))
);

ALTER TABLE "Warranty" ADD COLUMN "partUsedId" UUID;
CREATE UNIQUE INDEX "Warranty_partUsedId_key" ON "Warranty"("partUsedId");
ALTER TABLE "Warranty" ADD CONSTRAINT "Warranty_partUsedId_fkey" FOREIGN KEY ("partUsedId") REFERENCES "PartUsed"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "Warranty" ADD CONSTRAINT warranty_says_what CHECK (what <> '');

-- Work on a sealed circuit is the work of a job, where somebody asked for it.
ALTER TABLE "SealedRecord" ADD COLUMN "jobId" UUID;
CREATE INDEX "SealedRecord_jobId_idx" ON "SealedRecord"("jobId");
ALTER TABLE "SealedRecord" ADD CONSTRAINT "SealedRecord_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;
CREATE FUNCTION sealed_record_of_kitchens_job() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW."jobId" IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM "Job" j JOIN "Unit" u ON u."kitchenId" = j."kitchenId" WHERE j.id = NEW."jobId" AND u.id = NEW."unitId"
  ) THEN
    RAISE EXCEPTION 'sealed_record_of_kitchens_job: a repair record is of a job of the unit''s own kitchen' USING ERRCODE = '23514';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER sealed_record_of_kitchens_job BEFORE INSERT OR UPDATE OF "jobId", "unitId" ON "SealedRecord"
  FOR EACH ROW EXECUTE FUNCTION sealed_record_of_kitchens_job();
-- The records there are: the job that stood on one of their visits and names the unit.
UPDATE "SealedRecord" r SET "jobId" = (
  SELECT j.id FROM "Job" j JOIN "JobUnit" ju ON ju."jobId" = j.id AND ju."unitId" = r."unitId"
  WHERE j."visitId" IN (SELECT s."visitId" FROM "SealedStep" s WHERE s."recordId" = r.id)
    OR EXISTS (SELECT 1 FROM "JobOutcome" o JOIN "SealedStep" s ON s."visitId" = o."visitId" AND s."recordId" = r.id WHERE o."jobId" = j.id)
  ORDER BY j.urgency, j.number LIMIT 1
);
