-- What a customer gets in hand after a visit.
CREATE TYPE "CustomerLanguage" AS ENUM ('en', 'es');
ALTER TABLE "Customer" ADD COLUMN "language" "CustomerLanguage" NOT NULL DEFAULT 'en',
  ADD COLUMN "sendsReports" BOOLEAN NOT NULL DEFAULT false;
-- The shop's own words under a report, and its mark at the head: a PNG that the office uploaded, made anew.
ALTER TABLE "ShopSettings" ADD COLUMN "reportWords" TEXT NOT NULL DEFAULT '',
  ADD COLUMN "logoPng" BYTEA;
ALTER TYPE "MessageKind" ADD VALUE 'visit_report';

-- A report that was sent, with the link that opens it. Only a hash of the link is kept; who sent it and to whom stays.
CREATE TABLE "ReportSent" (
    "id" UUID NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "visitId" UUID NOT NULL,
    "language" "CustomerLanguage" NOT NULL,
    "toEmail" TEXT NOT NULL,
    "sentById" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT now(),
    "expiresAt" TIMESTAMPTZ NOT NULL,
    "revokedAt" TIMESTAMPTZ,
    "openedAt" TIMESTAMPTZ,
    "openings" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ReportSent_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "ReportSent_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "ReportSent_expires" CHECK ("expiresAt" > "createdAt"),
    CONSTRAINT "ReportSent_opened" CHECK (("openings" = 0) = ("openedAt" IS NULL))
);
CREATE UNIQUE INDEX "ReportSent_tokenHash_key" ON "ReportSent"("tokenHash");
CREATE INDEX "ReportSent_visitId_createdAt_idx" ON "ReportSent"("visitId", "createdAt");
