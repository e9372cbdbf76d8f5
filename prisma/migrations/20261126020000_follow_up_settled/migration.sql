-- Who settled a follow-up and what came of it. Nobody's name where the program closed the visit that met it.
ALTER TABLE "FollowUp" ADD COLUMN "resolvedById" UUID;
ALTER TABLE "FollowUp" ADD COLUMN "resolvedNote" TEXT NOT NULL DEFAULT '';
ALTER TABLE "FollowUp" ADD CONSTRAINT "FollowUp_resolvedById_fkey" FOREIGN KEY ("resolvedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "FollowUp" ADD CONSTRAINT follow_up_status CHECK (status IN ('open', 'done', 'dropped'));
ALTER TABLE "FollowUp" ADD CONSTRAINT follow_up_open_or_resolved CHECK (
  (status = 'open') = ("resolvedAt" IS NULL) AND (status <> 'open' OR ("resolvedById" IS NULL AND "resolvedNote" = ''))
);
ALTER TABLE "FollowUp" ADD CONSTRAINT follow_up_dropped_says_why CHECK (status <> 'dropped' OR ("resolvedById" IS NOT NULL AND "resolvedNote" <> ''));
