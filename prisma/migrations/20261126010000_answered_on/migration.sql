-- Which tablet an answer came from: two that differ are told, whichever arrives first.
ALTER TABLE "VisitTask" ADD COLUMN "deviceId" uuid;
ALTER TABLE "UnitVisit" ADD COLUMN "deviceId" uuid;
ALTER TABLE "Visit" ADD COLUMN "signedOn" uuid;
