-- A kitchen's units are told apart by name; an archived one gives its name back.
CREATE UNIQUE INDEX unit_name_in_kitchen ON "Unit" ("kitchenId", lower(name)) WHERE "archivedAt" IS NULL;

-- Who changed this last is asked at every stale edit.
CREATE INDEX "AuditEntry_entity_entityId_id_idx" ON "AuditEntry" ("entity", "entityId", "id");

-- The due list filters by area, which is a piece of the address.
CREATE INDEX kitchen_address_trgm ON "Kitchen" USING gin (address gin_trgm_ops);
