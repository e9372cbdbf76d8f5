-- The head of every page of the office counts what customers asked for; without this every job that waits was gone through.
CREATE INDEX "Job_asked_on_pages_idx" ON "Job"("createdAt") WHERE source = 'customer' AND state = 'asked' AND "closedAt" IS NULL;
-- Booking learns from the shop's latest finished visits: they are read in the index alone, whatever else the table holds.
CREATE INDEX "Visit_learned_from_idx" ON "Visit"("startsAt") INCLUDE (id, "kitchenId", "doneMinutes", "arrivedAt", "leftAt")
  WHERE status = 'done' AND NOT emergency AND NOT "nobodyThere" AND "doneMinutes" > 0 AND "leftAt" > "arrivedAt";
