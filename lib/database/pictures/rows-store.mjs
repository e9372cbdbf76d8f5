/**
 * A statement's rows.
 * @typedef {(sql: string, values: unknown[]) => Promise<any[]>} Ask
 */

const AT_A_TIME = 1000;

/**
 * Pictures as rows of the shop's own database.
 * @param {Ask} query @returns {import('./picture-store.mjs').PictureStore}
 */
export const rowsStore = (query) => ({
  name: 'database',
  async put(hash, bytes) {
    await query('INSERT INTO "KeptPicture" (hash, bytes) VALUES ($1, $2) ON CONFLICT (hash) DO NOTHING', [hash, bytes]);
  },
  async get(hash) {
    const [row] = await query('SELECT bytes FROM "KeptPicture" WHERE hash = $1', [hash]);
    return row ? new Uint8Array(row.bytes) : null;
  },
  async remove(hash) {
    await query('DELETE FROM "KeptPicture" WHERE hash = $1', [hash]);
  },
  async *list() {
    for (let after = ''; ;) {
      const rows = await query(`SELECT hash FROM "KeptPicture" WHERE hash > $1 ORDER BY hash LIMIT ${AT_A_TIME}`, [after]);
      for (const { hash } of rows) yield hash;
      if (rows.length < AT_A_TIME) return;
      after = rows[rows.length - 1].hash;
    }
  },
});
