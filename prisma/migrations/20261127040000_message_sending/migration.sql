-- A message is claimed before it is sent, so that no transaction waits for a mail server. Whether it arrived may stay
-- unknown; then a person decides: send it again, or leave it.
ALTER TYPE "MessageStatus" ADD VALUE 'sending';
ALTER TYPE "MessageStatus" ADD VALUE 'unknown';
ALTER TYPE "MessageStatus" ADD VALUE 'left';
ALTER TABLE "OutboxMessage" ADD COLUMN "claimedAt" TIMESTAMPTZ;
