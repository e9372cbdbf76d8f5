-- Links by which somebody chooses a password: sent to whoever was put on file, or forgot it. Only a hash is kept.
ALTER TYPE "MessageKind" ADD VALUE 'password_link';
CREATE TYPE "PasswordLinkPurpose" AS ENUM ('invitation', 'forgotten');
CREATE TABLE "PasswordLink" (
    "id" UUID NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "userId" UUID NOT NULL,
    "purpose" "PasswordLinkPurpose" NOT NULL,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT now(),
    "expiresAt" TIMESTAMPTZ NOT NULL,
    "usedAt" TIMESTAMPTZ,
    CONSTRAINT "PasswordLink_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "PasswordLink_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "PasswordLink_tokenHash_key" ON "PasswordLink"("tokenHash");
CREATE INDEX "PasswordLink_userId_idx" ON "PasswordLink"("userId");

-- The second step at signing in: a secret shared with an authenticator, sealed with the shop's own; the last period that was
-- used, which is not taken again; and hashes of the codes for the day when the telephone is lost.
ALTER TABLE "User" ADD COLUMN "secondStep" TEXT,
  ADD COLUMN "secondStepUsed" INTEGER NOT NULL DEFAULT 0,
  ADD COLUMN "spareCodes" TEXT[] NOT NULL DEFAULT '{}';
