-- What looks are summed up by is a closed set like the others.
CREATE TYPE "ForesightBy" AS ENUM ('kind', 'who');
ALTER TABLE "ForesightDay" DROP CONSTRAINT "ForesightDay_by", ALTER COLUMN by TYPE "ForesightBy" USING by::"ForesightBy";
