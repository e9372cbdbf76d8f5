-- When a customer who accepted a quote would like it done, in their words, while none of the free times suits.
ALTER TABLE "Job" ADD COLUMN "timeAsked" TEXT NOT NULL DEFAULT '';
ALTER TABLE "Job" ADD CONSTRAINT job_time_asked CHECK ("timeAsked" = '' OR (state <> 'booked' AND "closedAt" IS NULL));

-- What lies in whose van. What "Part"."inVan" counts is in a van, nobody said whose.
CREATE TABLE "PartInVan" (
    "partId" UUID NOT NULL,
    "technicianId" UUID NOT NULL,
    "pieces" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "PartInVan_pkey" PRIMARY KEY ("partId", "technicianId")
);
CREATE INDEX "PartInVan_technicianId_idx" ON "PartInVan"("technicianId");
ALTER TABLE "PartInVan" ADD CONSTRAINT "PartInVan_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "PartInVan" ADD CONSTRAINT "PartInVan_technicianId_fkey" FOREIGN KEY ("technicianId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "PartInVan" ADD CONSTRAINT part_in_van_pieces CHECK (pieces >= 0);

ALTER TABLE "PartUsed" ADD COLUMN "vanOfId" UUID;
ALTER TABLE "PartUsed" ADD CONSTRAINT "PartUsed_vanOfId_fkey" FOREIGN KEY ("vanOfId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "PartUsed" ADD CONSTRAINT part_used_van CHECK ("vanOfId" IS NULL OR place = 'van');
