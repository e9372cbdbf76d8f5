-- What a technician says of a job at a visit. Of two sayings the later stands; it takes hold when the visit closes.
CREATE TYPE "JobOutcomeKind" AS ENUM ('done', 'found_right', 'needs_part', 'needs_quote', 'not_done');
CREATE TABLE "JobOutcome" (
    "id" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "jobId" UUID NOT NULL,
    "outcome" "JobOutcomeKind" NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ NOT NULL,
    "deviceId" UUID,
    "byUserId" UUID,
    CONSTRAINT "JobOutcome_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "JobOutcome_visitId_jobId_key" ON "JobOutcome"("visitId", "jobId");
CREATE INDEX "JobOutcome_jobId_idx" ON "JobOutcome"("jobId");
ALTER TABLE "JobOutcome" ADD CONSTRAINT "JobOutcome_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "JobOutcome" ADD CONSTRAINT "JobOutcome_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;
-- What is left undone, or waits for a part, says why or which.
ALTER TABLE "JobOutcome" ADD CONSTRAINT job_outcome_says_why CHECK (outcome NOT IN ('needs_part', 'not_done') OR note <> '');
