-- What happened to a job at one moment happened in an order.
ALTER TABLE "JobEvent" ADD COLUMN seq SERIAL NOT NULL;
DROP INDEX "JobEvent_jobId_at_idx";
CREATE INDEX "JobEvent_jobId_seq_idx" ON "JobEvent"("jobId", seq);
