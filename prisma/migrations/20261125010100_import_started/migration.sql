-- When the writing began: an import that is marked running without anybody writing was cut off.
ALTER TABLE "ImportRun" ADD COLUMN "startedAt" TIMESTAMPTZ;
ALTER TABLE "ImportRun" ALTER COLUMN problems SET DEFAULT '{}';
