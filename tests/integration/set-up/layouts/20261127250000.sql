-- A small shop in the layout up to 20261127250000_everything_leaves. Written down for good: what a later layout asks of it is its affair.
INSERT INTO "ShopSettings" (name, "timeZone", currency, "updatedAt") VALUES ('Harbour Cold', 'America/Chicago', 'USD', '2026-11-20T10:00:00Z');
INSERT INTO "User" (id, email, name, role, "passwordHash") VALUES
  ('00000000-0000-4000-8000-000000000001', 'wren@harbour.example', 'Wren Adair', 'owner', 'none'),
  ('00000000-0000-4000-8000-000000000002', 'pell@harbour.example', 'Pell Marsh', 'technician', 'none');
INSERT INTO "Certificate" (id, "userId", kind, number) VALUES
  ('00000000-0000-4000-8000-000000000003', '00000000-0000-4000-8000-000000000002', 'us_608_universal', 'H-7');
INSERT INTO "Customer" (id, name) VALUES ('00000000-0000-4000-8000-000000000010', 'The Oyster Loft');
INSERT INTO "Kitchen" (id, "customerId", name, "timeZone") VALUES
  ('00000000-0000-4000-8000-000000000011', '00000000-0000-4000-8000-000000000010', 'The Oyster Loft, Pier 4', 'America/Chicago');
INSERT INTO "Unit" (id, "kitchenId", tag, name, kind, refrigerant, placement) VALUES
  ('00000000-0000-4000-8000-000000000012', '00000000-0000-4000-8000-000000000011', 'HC-1', 'Bar reach-in', 'reach_in', 'R134a', 'bar');
INSERT INTO "Task" (id, "unitId", "kitchenId", "kindKey", rule, "anchorDate", "dueOn", "lastDoneOn") VALUES
  ('00000000-0000-4000-8000-000000000013', '00000000-0000-4000-8000-000000000012', '00000000-0000-4000-8000-000000000011', 'coil_cleaning',
   'FREQ=WEEKLY;INTERVAL=8', '2026-06-01', '2026-12-15', '2026-10-20');
INSERT INTO "Visit" (id, "kitchenId", "technicianId", status, "startsAt", "endsAt", "arrivedAt", "leftAt", "closedAt", "updatedAt") VALUES
  ('00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000011', '00000000-0000-4000-8000-000000000002', 'done',
   '2026-10-20T14:00:00Z', '2026-10-20T15:00:00Z', '2026-10-20T14:05:00Z', '2026-10-20T14:50:00Z', '2026-10-20T14:50:00Z', '2026-10-20T14:50:00Z'),
  ('00000000-0000-4000-8000-000000000015', '00000000-0000-4000-8000-000000000011', '00000000-0000-4000-8000-000000000002', 'booked',
   '2026-12-15T14:00:00Z', '2026-12-15T15:00:00Z', NULL, NULL, NULL, '2026-10-20T14:50:00Z');
INSERT INTO "Finding" (id, "visitId", "unitId", aspect, grade, phase, at) VALUES
  ('00000000-0000-4000-8000-000000000020', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'coil', 'matted', 'found', '2026-10-20T14:10:00Z'),
  ('00000000-0000-4000-8000-000000000021', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'coil', 'bare', 'left', '2026-10-20T14:40:00Z'),
  ('00000000-0000-4000-8000-000000000022', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'condenser_fan', 'failed', 'found', '2026-10-20T14:12:00Z'),
  ('00000000-0000-4000-8000-000000000027', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'drain', 'runs', 'found', '2026-10-20T14:13:00Z'),
  ('00000000-0000-4000-8000-000000000028', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'ice', 'dry', 'found', '2026-10-20T14:13:00Z'),
  ('00000000-0000-4000-8000-000000000029', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'evaporator_fan', 'sound', 'found', '2026-10-20T14:13:00Z');
INSERT INTO "Reading" (id, "visitId", "unitId", phase, at, "headPaGauge", "airInK", "steadyMinutes") VALUES
  ('00000000-0000-4000-8000-000000000023', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'before', '2026-10-20T14:15:00Z', 1200000, 300, 12);
INSERT INTO "VisitTask" (id, "visitId", "taskId", "unitId", outcome, open, "answeredAt") VALUES
  ('00000000-0000-4000-8000-000000000024', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000013',
   '00000000-0000-4000-8000-000000000012', 'done', false, '2026-10-20T14:45:00Z');
INSERT INTO "StoredFile" (id, sha256, mime, width, height, bytes, thumbnail) VALUES
  ('00000000-0000-4000-8000-000000000025', repeat('ab', 32), 'image/jpeg', 1, 1, '\x00ff10', '\x01');
INSERT INTO "Photo" (id, "visitId", "unitId", "takenAt", sha256, "fileId") VALUES
  ('00000000-0000-4000-8000-000000000026', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', '2026-10-20T14:11:00Z',
   repeat('ab', 32), '00000000-0000-4000-8000-000000000025');
INSERT INTO "Part" (id, number, name, "priceCents", "inVan", "inShop", "warrantyMonths", "updatedAt") VALUES
  ('00000000-0000-4000-8000-000000000030', 'FM-9', 'Fan motor', 4200, 3, 5, 12, '2026-10-20T14:50:00Z');
INSERT INTO "PartUsed" (id, "visitId", "unitId", what, quantity, at, "partId", place, taken) VALUES
  ('00000000-0000-4000-8000-000000000031', '00000000-0000-4000-8000-000000000014', '00000000-0000-4000-8000-000000000012', 'Fan motor', 1,
   '2026-10-20T14:30:00Z', '00000000-0000-4000-8000-000000000030', 'van', 1);
INSERT INTO "Cylinder" (id, label, refrigerant, contents, "tareKg", "firstKg", "mostKg") VALUES
  ('00000000-0000-4000-8000-000000000032', 'Grey 2', 'R134a', 'new', 5, 12, 14);
INSERT INTO "CylinderEntry" (id, "cylinderId", way, kg, "byUserId", "certificateId", "unitId", at) VALUES
  ('00000000-0000-4000-8000-000000000033', '00000000-0000-4000-8000-000000000032', 'charged', -0.2, '00000000-0000-4000-8000-000000000002', '00000000-0000-4000-8000-000000000003',
   '00000000-0000-4000-8000-000000000012', '2026-10-20T14:35:00Z');
INSERT INTO "Job" (id, number, "kitchenId", source, state, urgency, what) VALUES
  ('00000000-0000-4000-8000-000000000034', 7, '00000000-0000-4000-8000-000000000011', 'call', 'quoted', 'week', 'The fan stands still');
INSERT INTO "JobUnit" ("jobId", "unitId") VALUES ('00000000-0000-4000-8000-000000000034', '00000000-0000-4000-8000-000000000012');
INSERT INTO "Quote" (id, "jobId", version, lines, "netCents", "taxCents", "totalCents", currency, "validUntil", reason, "sentAt", "tokenHash") VALUES
  ('00000000-0000-4000-8000-000000000035', '00000000-0000-4000-8000-000000000034', 1, '{"v": 1, "lines": []}', 4200, 0, 4200, 'USD', '2099-01-01',
   'It stands still and the head pressure shows it.', '2026-10-21T10:00:00Z', repeat('cd', 32));
INSERT INTO "CustomerPage" (id, "tokenHash", "feedHash", "customerId", holder, language, "expiresAt") VALUES
  ('00000000-0000-4000-8000-000000000036', repeat('ef', 32), repeat('01', 32), '00000000-0000-4000-8000-000000000010', 'Lou', 'es', '2099-01-01T00:00:00Z');
INSERT INTO "OutboxMessage" (id, kind, "toEmail", subject, text, status, "sentAt") VALUES
  ('00000000-0000-4000-8000-000000000037', 'quote_sent', 'lou@oyster.example', 'Quote 7', 'x', 'sent', '2026-10-21T10:00:05Z');
INSERT INTO "AuditEntry" ("userId", action, entity, "entityId") VALUES
  ('00000000-0000-4000-8000-000000000001', 'kitchen.created', 'Kitchen', '00000000-0000-4000-8000-000000000011');
