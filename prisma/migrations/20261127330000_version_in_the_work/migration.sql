-- The version of what a step says stands in it, as in every other Json column. What lies there without one is the first.
ALTER TABLE "SealedStep" DROP COLUMN "workVersion";
