-- What is out of use is the lesser part: counts of the rest take it from the whole.
CREATE INDEX "Task_gone_idx" ON "Task"(id) WHERE NOT active;
CREATE INDEX "Unit_archived_idx" ON "Unit"(id) WHERE "archivedAt" IS NOT NULL;
