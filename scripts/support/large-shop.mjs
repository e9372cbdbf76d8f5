import pg from 'pg';

/** Shops that share their technicians, their visits some hours apart. */
const SHOPS_A_CREW = 3;
const HOURS_APART = 4;
/** Units in place of each of the demo shop's: its kitchens are small. */
const TIMES = 3;

// How a column's ids go over into copy c of the shop (and m of the unit): `shop`, `unit`, `crew` (technicians), as they are.
const shop = (column) => `CASE WHEN $1 = 0 THEN ${column} ELSE md5(${column}::text || ':' || $1)::uuid END`;
const unit = (column) => `CASE WHEN $1 = 0 AND $2 = 0 THEN ${column} ELSE md5(${column}::text || ':' || $1 || ':' || $2)::uuid END`;
const crew = (column) =>
  `CASE WHEN $1 < ${SHOPS_A_CREW} OR NOT EXISTS (SELECT 1 FROM "User" p WHERE p.id = ${column} AND p.role = 'technician') THEN ${column}
    ELSE md5(${column}::text || ':crew' || $1 / ${SHOPS_A_CREW})::uuid END`;
const later = (column) => `${column} + ($1 % ${SHOPS_A_CREW}) * interval '${HOURS_APART} hours'`;
const named = (column) => `CASE WHEN $1 = 0 THEN ${column} ELSE ${column} || ' ' || $1 END`;
const numbered = (column) => `CASE WHEN $2 = 0 THEN ${column} ELSE ${column} || ' ' || chr(65 + $2) END`;
const coded = (column) => `CASE WHEN $1 = 0 AND $2 = 0 THEN ${column} ELSE ${column} || '-' || $1 || chr(65 + $2) END`;
const placed = (column, by) => `${column} + ${by} * (($1 * 37) % 101 - 50) / 250.0`;

const OF_VISIT = { visitId: shop, unitId: unit, byUserId: crew };
/** Tables in the order of their keys, each with how its columns go over. `times`: once for each unit. `without`: left to the database. */
const TABLES = [
  { table: 'Customer', map: { id: shop, name: named } },
  {
    table: 'Kitchen',
    map: { id: shop, customerId: shop, lat: (c) => placed(c, '1'), lng: (c) => placed(c, '(CASE WHEN $1 % 2 = 0 THEN 1 ELSE -1 END)') },
  },
  { table: 'KitchenBlackout', map: { id: shop, kitchenId: shop } },
  { table: 'Unit', times: true, map: { id: unit, kitchenId: shop, name: numbered, tag: coded, replacesId: unit } },
  { table: 'Task', times: true, map: { id: unit, unitId: unit, kitchenId: shop } },
  {
    table: 'Visit',
    map: {
      id: shop,
      kitchenId: shop,
      technicianId: crew,
      startsAt: later,
      endsAt: later,
      arrivedAt: later,
      leftAt: later,
      closedAt: later,
    },
  },
  { table: 'VisitTask', times: true, map: { id: unit, visitId: shop, taskId: unit, unitId: unit } },
  { table: 'VisitEvent', map: { id: shop, visitId: shop, byUserId: crew } },
  { table: 'UnitVisit', times: true, map: { id: unit, ...OF_VISIT } },
  { table: 'Finding', times: true, map: { id: unit, ...OF_VISIT, at: later } },
  { table: 'Reading', times: true, map: { id: unit, ...OF_VISIT, at: later } },
  { table: 'Estimate', times: true, map: { id: unit, readingId: unit, unitId: unit, at: later }, of: ['Reading', 'readingId', unit] },
  { table: 'UnitFouling', times: true, map: { unitId: unit } },
  { table: 'Foresight', times: true, map: { visitId: shop, unitId: unit, foundById: crew } },
  { table: 'UnitEvent', times: true, map: { id: unit, ...OF_VISIT } },
  { table: 'RuleChange', times: true, map: { id: unit, taskId: unit, visitId: shop, byUserId: crew } },
  { table: 'FoodWarning', times: true, map: { id: unit, ...OF_VISIT } },
  { table: 'PartUsed', map: { id: shop, visitId: shop, unitId: unit } },
  { table: 'Job', map: { id: shop, kitchenId: shop, foundVisitId: shop, visitId: shop }, without: ['number'] },
  { table: 'JobUnit', map: { jobId: shop, unitId: unit }, of: ['Job', 'jobId', shop] },
  { table: 'JobEvent', map: { id: shop, jobId: shop, visitId: shop, byUserId: crew }, without: ['seq'], of: ['Job', 'jobId', shop] },
];

/** The statement that makes copy $1 (of each unit, $2) of a table's first rows, which `mine` names. */
function copying({ table, map, without = [], of }, columns) {
  const own = columns.filter((c) => !without.includes(c));
  const into = own.map((c) => `"${c}"`).join(', ');
  const from = own.map((c) => (map[c] ? map[c](`t."${c}"`) : `t."${c}"`)).join(', ');
  // Of two copies that would have one technician in two places, the later is left out, and what was done there with it.
  const ofVisits = ['visitId', 'foundVisitId'].filter((column) => own.includes(column) && table !== 'RuleChange');
  const parents = [...ofVisits.map((column) => ['Visit', column, shop]), ...(of ? [of] : [])].map(
    ([parent, column, go]) => `AND (t."${column}" IS NULL OR EXISTS (SELECT 1 FROM "${parent}" p WHERE p.id = ${go(`t."${column}"`)}))`,
  );
  return `INSERT INTO "${table}" (${into}) SELECT ${from} FROM large_${table.toLowerCase()} t WHERE true ${parents.join(' ')} ON CONFLICT DO NOTHING`;
}

/**
 * Makes the demo shop in the database at `url` into a large one: copy beside copy, the same each time, with all that was ever
 * done there. @param {string} url @param {number} units about so many @returns {Promise<number>} how many there are
 */
export async function enlarge(url, units) {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const one = async (sql, values) => (await client.query(sql, values)).rows[0];
  try {
    const { n } = await one(`SELECT count(*)::int AS n FROM "Unit"`);
    const copies = Math.ceil(units / (n * TIMES));
    // The demo's own rows keep every rule; a copy of each need not prove it again.
    await client.query(`SET session_replication_role = replica`);
    await client.query('BEGIN');
    await client.query(`CREATE TEMP TABLE large_user ON COMMIT DROP AS SELECT * FROM "User" WHERE role = 'technician'`);
    const columnsOf = new Map();
    for (const { table } of TABLES) {
      await client.query(`CREATE TEMP TABLE large_${table.toLowerCase()} ON COMMIT DROP AS SELECT * FROM "${table}"`);
      const { names } = await one(
        `SELECT array_agg(column_name::text ORDER BY ordinal_position) AS names FROM information_schema.columns WHERE table_schema = 'public' AND table_name = $1 AND is_generated = 'NEVER'`,
        [table],
      );
      columnsOf.set(table, names);
    }
    const { people } = await one(
      `SELECT array_agg(column_name::text) AS people FROM information_schema.columns WHERE table_schema = 'public' AND table_name = 'User'`,
    );
    for (let c = SHOPS_A_CREW; c < copies; c += SHOPS_A_CREW)
      await client.query(
        `INSERT INTO "User" (${people.map((p) => `"${p}"`).join(', ')}) SELECT ${people
          .map((p) =>
            p === 'id'
              ? `md5(t.id::text || ':crew' || $1 / ${SHOPS_A_CREW})::uuid`
              : p === 'email'
                ? `'crew' || $1 / ${SHOPS_A_CREW} || '.' || t.email`
                : p === 'name'
                  ? `t.name || ' ' || $1 / ${SHOPS_A_CREW}`
                  : `t."${p}"`,
          )
          .join(', ')} FROM large_user t`.replaceAll('$1', String(c)),
      );
    for (const entry of TABLES)
      for (let c = 0; c < copies; c++)
        for (let m = 0; m < (entry.times ? TIMES : 1); m++)
          if (c > 0 || m > 0)
            await client.query(copying(entry, columnsOf.get(entry.table)).replaceAll('$1', String(c)).replaceAll('$2', String(m)));
    // What the database keeps by itself it does not while it copies.
    await client.query('TRUNCATE "UnitMatter", "KitchenFouling"');
    await client.query('INSERT INTO "UnitMatter" SELECT m.* FROM unit_matters((SELECT array_agg(id) FROM "Unit")) m');
    await client.query('INSERT INTO "KitchenFouling" SELECT * FROM kitchen_fouling((SELECT array_agg(id) FROM "Kitchen"))');
    await client.query('TRUNCATE "ForesightDay", "ForesightMark"');
    await client.query('INSERT INTO "ForesightMark" ("on") SELECT DISTINCT "on" FROM "Foresight" ORDER BY 1');
    await client.query('COMMIT');
    await client.query('VACUUM ANALYZE');
    return (await one(`SELECT count(*)::int AS n FROM "Unit"`)).n;
  } finally {
    await client.end();
  }
}
