-- When somebody last gave the password in this session: what could harm the shop asks for it again after a while.
ALTER TABLE "StaffSession" ADD COLUMN "provenAt" TIMESTAMPTZ NOT NULL DEFAULT now();
UPDATE "StaffSession" SET "provenAt" = "createdAt";
