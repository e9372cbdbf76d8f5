-- A coil beside the worst grease may pack within two weeks: new tasks may come every week. What a shop or a person set stays.
UPDATE "TaskKind" SET "minWeeks" = 1 WHERE key = 'coil_cleaning' AND "minWeeks" = 2;
