-- Which process searches for a plan, and when it last said so: of several, a living one is left alone and a dead one's
-- search is taken up by another.
ALTER TABLE "PlanRun"
  ADD COLUMN "claim" UUID,
  ADD COLUMN "beatAt" TIMESTAMPTZ,
  ADD COLUMN "tries" INTEGER NOT NULL DEFAULT 0;
