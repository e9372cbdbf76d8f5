-- What a device has been given and how far its entries have come in.
ALTER TABLE "Device" ADD COLUMN "lastSeq" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "Visit" ADD COLUMN "signedAt" TIMESTAMPTZ;
ALTER TABLE "VisitTask" ADD COLUMN "answeredAt" TIMESTAMPTZ;

CREATE TABLE "DeviceVisit" (
  "deviceId" UUID NOT NULL,
  "visitId" UUID NOT NULL,
  "givenAt" TIMESTAMPTZ NOT NULL,
  CONSTRAINT "DeviceVisit_pkey" PRIMARY KEY ("deviceId", "visitId"),
  CONSTRAINT "DeviceVisit_deviceId_fkey" FOREIGN KEY ("deviceId") REFERENCES "Device"("id") ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "DeviceVisit_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- An operation is taken in once, and none before the one it follows.
ALTER TABLE "Operation" ADD CONSTRAINT operation_seq_positive CHECK ("deviceSeq" > 0);
