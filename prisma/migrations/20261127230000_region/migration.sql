-- Whose habits the shop follows: distances and speeds, dates, figures, and what customers read in.
CREATE TYPE "Region" AS ENUM ('us', 'ca', 'gb', 'ie', 'au', 'nz', 'za', 'elsewhere');
ALTER TABLE "ShopSettings" ADD COLUMN "region" "Region" NOT NULL DEFAULT 'us';
-- A shop that is there already is taken to be where its money is from; where that does not say, it stays metric.
UPDATE "ShopSettings" SET "region" = (CASE "currency"
  WHEN 'USD' THEN 'us' WHEN 'CAD' THEN 'ca' WHEN 'GBP' THEN 'gb' WHEN 'AUD' THEN 'au' WHEN 'NZD' THEN 'nz' WHEN 'ZAR' THEN 'za'
  ELSE 'elsewhere' END)::"Region", "updatedAt" = "updatedAt";
