-- A small shop in the layout up to 20261126030000_message_overtaken. Written down for good: what a later layout asks of it is its affair.
INSERT INTO "ShopSettings" (name, "timeZone", "updatedAt") VALUES ('Fernhill Cold', 'America/Denver', '2026-11-20T10:00:00Z');
INSERT INTO "User" (id, email, name, role, "passwordHash") VALUES
  ('00000000-0000-4000-8000-000000000001', 'mara@fernhill.example', 'Mara Voss', 'dispatcher', 'none'),
  ('00000000-0000-4000-8000-000000000002', 'ilo@fernhill.example', 'Ilo Brandt', 'technician', 'none');
INSERT INTO "Customer" (id, name) VALUES ('00000000-0000-4000-8000-000000000010', 'Copper Fern');
INSERT INTO "Kitchen" (id, "customerId", name, "timeZone") VALUES
  ('00000000-0000-4000-8000-000000000011', '00000000-0000-4000-8000-000000000010', 'Copper Fern, Mill Street', 'America/Denver');
INSERT INTO "Unit" (id, "kitchenId", tag, name, kind, refrigerant, placement) VALUES
  ('00000000-0000-4000-8000-000000000012', '00000000-0000-4000-8000-000000000011', 'FH-1', 'Fry line reach-in', 'reach_in', 'R290', 'fryer');
INSERT INTO "Task" (id, "unitId", "kitchenId", "kindKey", rule, "anchorDate", "dueOn") VALUES
  ('00000000-0000-4000-8000-000000000013', '00000000-0000-4000-8000-000000000012', '00000000-0000-4000-8000-000000000011', 'coil_cleaning',
   'FREQ=WEEKLY;INTERVAL=6', '2026-06-01', '2026-12-01');
INSERT INTO "Visit" (id, "kitchenId", "technicianId", status, "startsAt", "endsAt", "arrivedAt", "leftAt", "closedAt", "updatedAt") VALUES
  ('00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000011', '00000000-0000-4000-8000-000000000002', 'done',
   '2026-10-20T14:00:00Z', '2026-10-20T15:00:00Z', '2026-10-20T14:05:00Z', '2026-10-20T14:50:00Z', '2026-10-20T14:50:00Z', '2026-10-20T14:50:00Z');
INSERT INTO "Finding" (id, "visitId", "unitId", aspect, grade, phase, at) VALUES
  ('00000000-0000-4000-8000-000000000015', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'coil', 'matted', 'found', '2026-10-20T14:10:00Z'),
  ('00000000-0000-4000-8000-000000000016', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'drain', 'slow', 'found', '2026-10-20T14:12:00Z');
INSERT INTO "VisitTask" (id, "visitId", "taskId", "unitId", outcome, reason, open) VALUES
  ('00000000-0000-4000-8000-000000000017', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000013',
   '00000000-0000-4000-8000-000000000012', 'not_done', 'The line was cooking.', false);
INSERT INTO "FollowUp" (id, "unitId", what) VALUES
  ('00000000-0000-4000-8000-000000000018', '00000000-0000-4000-8000-000000000012', 'Quote a door gasket');
INSERT INTO "Device" (id, "userId", "lastSeq") VALUES ('00000000-0000-4000-8000-000000000019', '00000000-0000-4000-8000-000000000002', 1);
INSERT INTO "Operation" (id, "deviceId", "userId", "deviceSeq", kind, version, "visitId", payload, "madeAt", outcome) VALUES
  ('00000000-0000-4000-8000-00000000001a', '00000000-0000-4000-8000-000000000019', '00000000-0000-4000-8000-000000000002', 1, 'visit.arrive', 1,
   '00000000-0000-4000-8000-000000000014', '{}', '2026-10-20T14:05:00Z', 'applied');
INSERT INTO "AuditEntry" ("userId", action, entity, "entityId") VALUES
  ('00000000-0000-4000-8000-000000000001', 'kitchen.created', 'Kitchen', '00000000-0000-4000-8000-000000000011');
