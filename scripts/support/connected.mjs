import pg from 'pg';

/** A connection that is closed when `work` is done. */
export async function connected(url, work) {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => {});
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}
