-- A kitchen's page asks how many rules each of its visits moved; without this every change of the shop was gone through.
CREATE INDEX "RuleChange_visitId_idx" ON "RuleChange"("visitId");
