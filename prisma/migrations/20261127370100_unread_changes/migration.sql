-- Changes that nobody has looked at, counted on two pages: a large shop has half a million others.
CREATE INDEX "RuleChange_unread_idx" ON "RuleChange"("taskId") WHERE kind = 'evidence' AND review IS NULL;
