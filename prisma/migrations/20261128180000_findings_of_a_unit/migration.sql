-- What a belief rests on is read from the index alone: a unit's findings lie scattered over fifteen pages of the table, and in two of this.
CREATE INDEX finding_looks ON "Finding" ("unitId") INCLUDE ("visitId", at, id, aspect, grade, phase, "byUserId")
  WHERE "supersededAt" IS NULL AND grade IS NOT NULL;
