-- What can happen to a visit is a closed set.
CREATE TYPE "VisitEventKind" AS ENUM ('booked', 'moved', 'reassigned', 'cancelled', 'started', 'closed', 'revised', 'not_revised', 'confirmed', 'asked_other_time');
ALTER TABLE "VisitEvent" ALTER COLUMN kind TYPE "VisitEventKind" USING kind::"VisitEventKind";
