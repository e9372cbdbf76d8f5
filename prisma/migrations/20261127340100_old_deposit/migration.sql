-- What the last cleaning showed of old deposit, so that the tablet says it at the coil without working it out anew.
ALTER TABLE "UnitFouling" ADD COLUMN "oldDeposit" TEXT;
