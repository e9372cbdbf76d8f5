import 'server-only';
import type { RecordKind } from '../../../core/audit/kinds';
import { Prisma } from '../../../database/client';
import { FULL_KITCHEN_NAME } from '../../../database/kitchen-name';

/** What belongs to a record and is shown with it: kind, id and name of each part. */
const PARTS: Partial<Record<RecordKind, (id: string) => Prisma.Sql>> = {
  Unit: (id) => Prisma.sql`
    SELECT 'Task', t.id::text, k.label FROM "Task" t JOIN "TaskKind" k ON k.key = t."kindKey" WHERE t."unitId" = ${id}::uuid
    UNION ALL SELECT 'UnitChoice', c.id::text, 'Clean, repair or replace' FROM "UnitChoice" c WHERE c."unitId" = ${id}::uuid`,
  User: (id) =>
    Prisma.sql`SELECT 'Certificate', c.id::text, 'Certificate ' || c.number FROM "Certificate" c WHERE c."userId" = ${id}::uuid`,
  ShopSettings: () => Prisma.sql`SELECT 'TaskKind', k.key, k.label FROM "TaskKind" k`,
};

/** A record and its parts, as rows of kind, id and name. */
export const recordAndParts = (kind: RecordKind, id: string): Prisma.Sql => {
  const parts = PARTS[kind]?.(id) ?? Prisma.empty;
  return Prisma.sql`SELECT ${kind} AS entity, ${id} AS "entityId", '' AS part ${parts === Prisma.empty ? parts : Prisma.sql`UNION ALL ${parts}`}`;
};

const OF_UNIT = Prisma.sql`JOIN "Kitchen" k ON k.id = u."kitchenId" JOIN "Customer" c ON c.id = k."customerId"`;
/** Units of one name stand in many kitchens. */
const FULL_UNIT_NAME = Prisma.sql`u.name || ', ' || ${FULL_KITCHEN_NAME}`;

/** How a record of each kind is called, and the id of the record on whose page it stands; kinds that are one thing have neither. */
const NAMED: Partial<Record<RecordKind, (ids: readonly string[]) => Prisma.Sql>> = {
  Customer: (ids) => Prisma.sql`SELECT 'Customer', id::text, name, id::text FROM "Customer" WHERE id = ANY(${ids}::uuid[])`,
  Kitchen: (ids) => Prisma.sql`
    SELECT 'Kitchen', k.id::text, ${FULL_KITCHEN_NAME}, k.id::text FROM "Kitchen" k JOIN "Customer" c ON c.id = k."customerId" WHERE k.id = ANY(${ids}::uuid[])`,
  Unit: (ids) => Prisma.sql`
    SELECT 'Unit', u.id::text, ${FULL_UNIT_NAME}, u.id::text FROM "Unit" u ${OF_UNIT} WHERE u.id = ANY(${ids}::uuid[])`,
  User: (ids) => Prisma.sql`SELECT 'User', id::text, name, id::text FROM "User" WHERE id = ANY(${ids}::uuid[])`,
  Task: (ids) => Prisma.sql`
    SELECT 'Task', t.id::text, tk.label || ', ' || ${FULL_UNIT_NAME}, u.id::text
    FROM "Task" t JOIN "Unit" u ON u.id = t."unitId" ${OF_UNIT} JOIN "TaskKind" tk ON tk.key = t."kindKey" WHERE t.id = ANY(${ids}::uuid[])`,
  UnitChoice: (ids) => Prisma.sql`
    SELECT 'UnitChoice', uc.id::text, ${FULL_UNIT_NAME}, u.id::text
    FROM "UnitChoice" uc JOIN "Unit" u ON u.id = uc."unitId" ${OF_UNIT} WHERE uc.id = ANY(${ids}::uuid[])`,
  Certificate: (ids) => Prisma.sql`
    SELECT 'Certificate', c.id::text, c.number || ', ' || u.name, u.id::text
    FROM "Certificate" c JOIN "User" u ON u.id = c."userId" WHERE c.id = ANY(${ids}::uuid[])`,
  Cylinder: (ids) => Prisma.sql`SELECT 'Cylinder', id::text, label, id::text FROM "Cylinder" WHERE id = ANY(${ids}::uuid[])`,
  Visit: (ids) => Prisma.sql`
    SELECT 'Visit', v.id::text, ${FULL_KITCHEN_NAME}, v.id::text
    FROM "Visit" v JOIN "Kitchen" k ON k.id = v."kitchenId" JOIN "Customer" c ON c.id = k."customerId" WHERE v.id = ANY(${ids}::uuid[])`,
  OutboxMessage: (ids) => Prisma.sql`SELECT 'OutboxMessage', id::text, subject, '' FROM "OutboxMessage" WHERE id = ANY(${ids}::uuid[])`,
  ImportRun: (ids) => Prisma.sql`SELECT 'ImportRun', id::text, "fileName", id::text FROM "ImportRun" WHERE id = ANY(${ids}::uuid[])`,
  TaskKind: (ids) => Prisma.sql`SELECT 'TaskKind', key, label, '' FROM "TaskKind" WHERE key = ANY(${ids}::text[])`,
};

/** Names of records by kind, as rows of kind, id, name and whose page; null where none has one. */
export function namesOf(wanted: ReadonlyMap<RecordKind, readonly string[]>): Prisma.Sql | null {
  const asked = [...wanted].flatMap(([kind, ids]) => NAMED[kind]?.(ids) ?? []);
  return asked.length > 0 ? Prisma.join(asked, ' UNION ALL ') : null;
}
