-- Kinds of task that every shop starts with; the same as TASK_KINDS in lib/core/tasks.ts (a test compares them).
INSERT INTO "TaskKind" (key, label, minutes, "lowSide", "defaultWeeks", "minWeeks", "maxWeeks", sort) VALUES
  ('coil_cleaning', 'Coil cleaning', 18, false, 13, 2, 52, 0),
  ('drain_inspection', 'Drain inspection', 4, true, 13, 2, 26, 1),
  ('evaporator_inspection', 'Evaporator inspection', 5, true, 13, 2, 26, 2),
  ('ice_machine_cleaning', 'Ice machine clean and sanitise', 60, false, 26, 8, 26, 3)
ON CONFLICT (key) DO NOTHING;
