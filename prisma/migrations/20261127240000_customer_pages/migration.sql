-- A customer's own page behind a link: its next visits, reports, quotes and open work.
ALTER TYPE "MessageKind" ADD VALUE 'customer_page';
ALTER TYPE "MessageKind" ADD VALUE 'customer_call';
-- So that a page can name a kitchen of its own customer and of no other.
CREATE UNIQUE INDEX "Kitchen_id_customerId_key" ON "Kitchen"("id", "customerId");
CREATE TABLE "CustomerPage" (
    "id" UUID NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "feedHash" TEXT NOT NULL,
    "customerId" UUID NOT NULL,
    "kitchenId" UUID,
    "holder" TEXT NOT NULL,
    "toEmail" TEXT NOT NULL DEFAULT '',
    "language" "CustomerLanguage" NOT NULL,
    "answersQuotes" BOOLEAN NOT NULL DEFAULT false,
    "createdById" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ NOT NULL,
    "revokedAt" TIMESTAMPTZ,
    "openedAt" TIMESTAMPTZ,
    "lastOpenedAt" TIMESTAMPTZ,
    "openings" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "CustomerPage_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "CustomerPage_expires" CHECK ("expiresAt" > "createdAt"),
    CONSTRAINT "CustomerPage_opened" CHECK (("openings" = 0) = ("openedAt" IS NULL)),
    CONSTRAINT "CustomerPage_own_calendar" CHECK ("feedHash" <> "tokenHash")
);
CREATE UNIQUE INDEX "CustomerPage_tokenHash_key" ON "CustomerPage"("tokenHash");
CREATE UNIQUE INDEX "CustomerPage_feedHash_key" ON "CustomerPage"("feedHash");
CREATE INDEX "CustomerPage_customerId_createdAt_idx" ON "CustomerPage"("customerId", "createdAt");
ALTER TABLE "CustomerPage" ADD CONSTRAINT "CustomerPage_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "CustomerPage" ADD CONSTRAINT "CustomerPage_kitchenId_customerId_fkey" FOREIGN KEY ("kitchenId", "customerId") REFERENCES "Kitchen"("id", "customerId") ON DELETE CASCADE ON UPDATE CASCADE;
