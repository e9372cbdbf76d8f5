-- What a customer gets in hand after a quarter.
ALTER TYPE "MessageKind" ADD VALUE 'quarter_report';
ALTER TABLE "Customer" ADD COLUMN "sendsQuarters" BOOLEAN NOT NULL DEFAULT false;
CREATE TABLE "QuarterSent" (
    "id" UUID NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "customerId" UUID NOT NULL,
    "startsOn" DATE NOT NULL,
    "language" "CustomerLanguage" NOT NULL,
    "toEmail" TEXT NOT NULL,
    "sentById" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ NOT NULL,
    "revokedAt" TIMESTAMPTZ,
    "openedAt" TIMESTAMPTZ,
    "openings" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "QuarterSent_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "QuarterSent_starts" CHECK ("startsOn" = date_trunc('quarter', "startsOn"::timestamp)::date),
    CONSTRAINT "QuarterSent_expires" CHECK ("expiresAt" > "createdAt"),
    CONSTRAINT "QuarterSent_opened" CHECK (("openings" = 0) = ("openedAt" IS NULL))
);
CREATE UNIQUE INDEX "QuarterSent_tokenHash_key" ON "QuarterSent"("tokenHash");
CREATE INDEX "QuarterSent_customerId_startsOn_idx" ON "QuarterSent"("customerId", "startsOn");
-- By itself at most once a quarter, whichever process looks.
CREATE UNIQUE INDEX "QuarterSent_by_itself_once" ON "QuarterSent"("customerId", "startsOn") WHERE "sentById" IS NULL;
ALTER TABLE "QuarterSent" ADD CONSTRAINT "QuarterSent_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE CASCADE ON UPDATE CASCADE;
