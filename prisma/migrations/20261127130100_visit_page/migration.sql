-- A visit's tasks, note and appointment change after booking, and a cancelled one can stand again.
ALTER TYPE "VisitEventKind" ADD VALUE 'changed';
ALTER TYPE "VisitEventKind" ADD VALUE 'restored';
ALTER TYPE "MessageKind" ADD VALUE 'visit_reminder';
-- Whether kitchens are reminded by mail the day before; the time of a visit of which its kitchen was reminded, so that it is once.
ALTER TABLE "ShopSettings" ADD COLUMN "remindDayBefore" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "Visit" ADD COLUMN "remindedOf" TIMESTAMPTZ;
