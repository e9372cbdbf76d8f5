-- What an hour, a kilometre and a kilowatt-hour cost the shop. Null until somebody said so: no figure is assumed for them.
ALTER TABLE "ShopSettings"
  ADD COLUMN "labourPerHour" DOUBLE PRECISION,
  ADD COLUMN "vehiclePerKm" DOUBLE PRECISION,
  ADD COLUMN "energyPricePerKwh" DOUBLE PRECISION,
  ADD CONSTRAINT "ShopSettings_costs_not_negative" CHECK ("labourPerHour" >= 0 AND "vehiclePerKm" >= 0 AND "energyPricePerKwh" >= 0);
