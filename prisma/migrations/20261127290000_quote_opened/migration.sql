-- Whether a quote's link was opened before it was answered, as reports and pages tell it.
ALTER TABLE "Quote" ADD COLUMN "openedAt" TIMESTAMPTZ, ADD COLUMN "openings" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "Quote" ADD CONSTRAINT quote_opened_once_sent CHECK ("openedAt" IS NULL OR "sentAt" IS NOT NULL);
