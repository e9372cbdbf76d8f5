-- Dates and times as the shop is used to them. Shops on file keep what they have read so far.
CREATE TYPE "DateHabit" AS ENUM ('day_first', 'month_first');
ALTER TABLE "ShopSettings" ADD COLUMN dates "DateHabit" NOT NULL DEFAULT 'day_first';
