-- Tries are counted on one row a key, so that counting and taking are one step however many come at once.
CREATE TABLE "Brake" (
    "key" TEXT NOT NULL,
    "tries" TIMESTAMPTZ[] NOT NULL,
    "lastAt" TIMESTAMPTZ NOT NULL,

    CONSTRAINT "Brake_pkey" PRIMARY KEY ("key")
);
CREATE INDEX "Brake_lastAt_idx" ON "Brake"("lastAt");

DROP TABLE "SignInAttempt";
