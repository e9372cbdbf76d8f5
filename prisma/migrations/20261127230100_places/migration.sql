-- Where a kitchen's position comes from; one that a person has set is written over by a person alone.
CREATE TYPE "PositionSource" AS ENUM ('hand', 'address', 'arrivals');
ALTER TABLE "Kitchen" ADD COLUMN "positionFrom" "PositionSource" NOT NULL DEFAULT 'hand';

CREATE FUNCTION kitchen_hand_position_stands() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.lat IS NOT NULL AND OLD."positionFrom" = 'hand' AND NEW."positionFrom" <> 'hand' THEN
    RAISE EXCEPTION 'a person has set this position' USING ERRCODE = 'check_violation', CONSTRAINT = 'kitchen_hand_position_stands';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER kitchen_hand_position_stands BEFORE UPDATE ON "Kitchen" FOR EACH ROW EXECUTE FUNCTION kitchen_hand_position_stands();

-- Addresses that are asked of the place-finding service, one row a kitchen: what waits is the queue, what came back waits for a person.
CREATE TYPE "LookupStatus" AS ENUM ('waiting', 'found', 'nothing', 'failed', 'accepted', 'refused');
CREATE TABLE "PlaceLookup" (
  "kitchenId" UUID NOT NULL PRIMARY KEY REFERENCES "Kitchen" (id) ON DELETE CASCADE ON UPDATE CASCADE,
  "address" TEXT NOT NULL,
  "status" "LookupStatus" NOT NULL DEFAULT 'waiting',
  "problem" TEXT NOT NULL DEFAULT '',
  "candidates" JSONB NOT NULL DEFAULT '[]',
  "askedAt" TIMESTAMPTZ,
  "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP
);
CREATE INDEX "PlaceLookup_status_createdAt_idx" ON "PlaceLookup" ("status", "createdAt");

-- Where tablets were when their people wrote down an arrival, by their leave. Nobody's name stands here, and nothing stays.
ALTER TABLE "User" ADD COLUMN "sharesArrivals" BOOLEAN;
CREATE TABLE "ArrivalFix" (
  "id" UUID NOT NULL PRIMARY KEY,
  "kitchenId" UUID NOT NULL REFERENCES "Kitchen" (id) ON DELETE CASCADE ON UPDATE CASCADE,
  "lat" DOUBLE PRECISION NOT NULL CHECK ("lat" BETWEEN -90 AND 90),
  "lng" DOUBLE PRECISION NOT NULL CHECK ("lng" BETWEEN -180 AND 180),
  "accuracyM" DOUBLE PRECISION NOT NULL CHECK ("accuracyM" >= 0),
  "at" TIMESTAMPTZ NOT NULL
);
CREATE INDEX "ArrivalFix_kitchenId_idx" ON "ArrivalFix" ("kitchenId");
CREATE INDEX "ArrivalFix_at_idx" ON "ArrivalFix" ("at");
