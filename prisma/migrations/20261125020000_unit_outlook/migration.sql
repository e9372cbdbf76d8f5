-- Where a unit's coil stood when it was last looked at, and what its own limits and energy are: lists and sums over
-- a fleet then need neither the whole belief nor the equations.
ALTER TABLE "UnitFouling" ADD COLUMN "lnK" DOUBLE PRECISION NOT NULL DEFAULT 0;
ALTER TABLE "UnitFouling" ADD COLUMN "lnKSd" DOUBLE PRECISION NOT NULL DEFAULT 0;
ALTER TABLE "UnitFouling" ADD COLUMN "asOf" DATE NOT NULL DEFAULT '2000-01-01';
ALTER TABLE "UnitFouling" ADD COLUMN "own" JSONB;
