-- A new shop asks its owners for a second step before people, roles and everything as one file. One that works already goes on as it
-- did, until an owner turns it on under People.
ALTER TABLE "ShopSettings" ADD COLUMN "ownersGiveCode" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "ShopSettings" ALTER COLUMN "ownersGiveCode" SET DEFAULT true;
