import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { drop, query, withDatabase } from '../../../scripts/support/databases.mjs';
import { migrate, pending } from '../../../scripts/support/migrations.mjs';

// docker-compose.yml without a daemon: what stands in it, and its script of accounts run on a server of ours.
const account = `${inject('databasePrefix')}_account`;
const password = 'only-for-this-test';
const root = inject('databaseTemplate');
const asAccount = (database: string) => {
  const url = new URL(withDatabase(root, database));
  [url.username, url.password] = [account, password];
  return url.href;
};
let compose = '';

beforeAll(async () => {
  compose = await readFile('docker-compose.yml', 'utf8');
  const script = /<<'SQL'\n([^]*?)\n\s*SQL/.exec(compose)?.[1] ?? '';
  for (const line of script.split('\n')) await query(root, line.replaceAll(":'password'", `'${password}'`).replaceAll('rimebook', account));
});
afterAll(async () => {
  await drop(withDatabase(root, account));
  await query(root, `DROP ROLE IF EXISTS "${account}"`);
});

it('the app’s account owns its database, is no superuser, makes every layout and reaches for nothing outside', async () => {
  expect(
    await query(root, 'SELECT rolsuper, rolcreaterole, rolreplication, rolbypassrls FROM pg_roles WHERE rolname = $1', [account]),
  ).toEqual([{ rolsuper: false, rolcreaterole: false, rolreplication: false, rolbypassrls: false }]);
  await migrate(asAccount(account));
  expect(await pending(asAccount(account))).toEqual([]);
  await expect(query(asAccount(account), `COPY (SELECT 1) TO PROGRAM 'true'`)).rejects.toThrow(/permission denied/);
  await expect(query(asAccount(account), `SELECT pg_read_file('/etc/hostname')`)).rejects.toThrow(/permission denied/);
  // An update is tried on a copy: it may make one.
  await query(asAccount(account), `CREATE DATABASE "${account}_copy"`);
  await drop(asAccount(`${account}_copy`));
});

it('each service has bounds of memory, processors and processes, a log that does not grow, and no new privileges', () => {
  const services = compose.slice(compose.indexOf('\nservices:'), compose.indexOf('\nconfigs:')).split(/\n {2}(?=[\w-]+:)/).slice(1); // prettier-ignore
  expect(services.map((s) => /^[\w-]+/.exec(s)?.[0])).toEqual(['app', 'second', 'worker', 'backup', 'database', 'front', 'front-of-two']);
  for (const service of services) {
    // What a service takes over from another stands with that one.
    if (service.includes('<<: *front')) continue;
    expect(service).toMatch(/<<: \*(app|limits)/);
    for (const bound of [/mem_limit: \d+[mg]/, /cpus: \d/, /pids_limit: \d+/]) expect(service).toMatch(bound);
  }
  expect(compose).toMatch(/x-limits: &limits[^]*?no-new-privileges:true[^]*?max-size: 10m, max-file: '5'/);
  // Whoever is on the shop's network reaches the app by the front alone, and the database not at all.
  expect(services.filter((s) => s.includes('ports:')).map((s) => /ports:\s*(.*)/.exec(s)?.[0].replace(/\s+/g, ' '))).toEqual([
    "ports: - '127.0.0.1:${RIMEBOOK_PORT:-3000}:3000'",
    "ports: ['80:80', '443:443']",
  ]);
});

it('whether the image is well is asked of what can serve, and it runs under an account of its own', async () => {
  const image = await readFile('Dockerfile', 'utf8');
  expect(image).toMatch(/HEALTHCHECK[^]*\/api\/health/);
  expect(image).toMatch(/\nUSER node\n/);
  expect(compose).toMatch(/health_uri \/api\/health/);
});
