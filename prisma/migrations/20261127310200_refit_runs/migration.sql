-- The weekly refit of a large fleet takes minutes: a run says how far it has come, so that another process goes on from there.
CREATE TABLE "RefitRun" (
  id UUID NOT NULL,
  "startedAt" TIMESTAMPTZ NOT NULL,
  "finishedAt" TIMESTAMPTZ,
  -- What the fleet taught, once it is fitted; every unit is brought up to it.
  "priorId" UUID,
  -- Every kitchen up to this one is done.
  "afterKitchenId" UUID,
  units INTEGER NOT NULL DEFAULT 0,
  -- Who works on it (one claim a try), and when that process last said that it lives.
  claim UUID,
  "beatAt" TIMESTAMPTZ,
  tries INTEGER NOT NULL DEFAULT 0,
  error TEXT NOT NULL DEFAULT '',
  CONSTRAINT "RefitRun_pkey" PRIMARY KEY (id)
);
CREATE INDEX "RefitRun_startedAt_idx" ON "RefitRun"("startedAt");
ALTER TABLE "RefitRun" ADD CONSTRAINT "RefitRun_priorId_fkey" FOREIGN KEY ("priorId") REFERENCES "FleetPrior"(id) ON DELETE SET NULL ON UPDATE CASCADE;
-- One at a time, whichever process it is.
CREATE UNIQUE INDEX "RefitRun_one_at_a_time" ON "RefitRun" ((true)) WHERE "finishedAt" IS NULL;

-- What a unit's own limits were worked out from, hashed: where nothing of it changed they stand.
ALTER TABLE "UnitFouling" ADD COLUMN "ownKey" TEXT;
