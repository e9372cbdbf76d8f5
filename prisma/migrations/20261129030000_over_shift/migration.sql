-- How far a proposed day may end after the shift. A new shop's proposals keep to its people's hours; shops there are keep the hour they had.
ALTER TABLE "ShopSettings" ADD COLUMN "overShiftMinutes" INTEGER NOT NULL DEFAULT 0;
UPDATE "ShopSettings" SET "overShiftMinutes" = 60;
ALTER TABLE "ShopSettings" ADD CONSTRAINT "ShopSettings_over_shift" CHECK ("overShiftMinutes" BETWEEN 0 AND 180);
