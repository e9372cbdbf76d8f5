-- A unit’s page asks what stands in its place now: without this every unit of the shop is looked at.
CREATE INDEX "Unit_replacesId_idx" ON "Unit"("replacesId");
