-- A letter of one screen to the owners, on Mondays.
ALTER TYPE "MessageKind" ADD VALUE 'weekly_owner';
ALTER TABLE "ShopSettings" ADD COLUMN "weeklyLetter" BOOLEAN NOT NULL DEFAULT true,
  ADD COLUMN "weeklyLetterOn" DATE;
