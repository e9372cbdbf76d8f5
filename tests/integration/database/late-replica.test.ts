import { afterAll, beforeAll, expect, it } from 'vitest';
import { connect, type Db } from '@/lib/database/client';
import { behindMs, longReads } from '@/lib/database/replica';
import { useDatabase } from '../../support/database';

// A database that says of itself what a replica would say: its own functions stand before PostgreSQL’s. How a real one is followed is
// tried in tests/integration/set-up/replica.test.ts; this one can be late by half a minute without anybody waiting for it.
const database = useDatabase();
let replica: Db;

beforeAll(async () => {
  const { db, url } = database;
  for (const sql of [
    'CREATE SCHEMA pretend',
    'CREATE TABLE pretend.says (follows bool, got text, shown text, late float8, waits float8)',
    `INSERT INTO pretend.says VALUES (true, '0/2', '0/1', 0, 0)`,
    'CREATE FUNCTION pretend.pg_is_in_recovery() RETURNS bool LANGUAGE plpgsql AS $$ BEGIN PERFORM pg_sleep(waits) FROM pretend.says; RETURN (SELECT follows FROM pretend.says); END $$',
    'CREATE FUNCTION pretend.pg_last_wal_receive_lsn() RETURNS text LANGUAGE sql AS $$ SELECT got FROM pretend.says $$',
    'CREATE FUNCTION pretend.pg_last_wal_replay_lsn() RETURNS text LANGUAGE sql AS $$ SELECT shown FROM pretend.says $$',
    `CREATE FUNCTION pretend.pg_last_xact_replay_timestamp() RETURNS timestamptz LANGUAGE sql AS $$ SELECT now() - late * interval '1 second' FROM pretend.says $$`,
  ])
    await db.$executeRawUnsafe(sql);
  const address = new URL(url);
  address.searchParams.set('options', '-c search_path=pretend,pg_catalog');
  replica = connect(address.href, 2);
}, 60_000);
afterAll(() => replica?.$disconnect());

type Says = { follows: boolean; got: string; shown: string; late: number | null; waits: number };
const CAUGHT_UP: Says = { follows: true, got: '0/2', shown: '0/2', late: 500, waits: 0 };
const LATE = (late: number | null): Says => ({ ...CAUGHT_UP, shown: '0/1', late });
const says = ({ follows, got, shown, late, waits }: Says) =>
  database.db.$executeRaw`UPDATE pretend.says SET follows = ${follows}, got = ${got}, shown = ${shown}, late = ${late}, waits = ${waits}`;

it('is as late as what it shows last, and not late at all where nothing more has come', async () => {
  await says(LATE(12));
  expect(await behindMs(replica)).toBeCloseTo(12_000, -1);
  await says(CAUGHT_UP);
  expect(await behindMs(replica)).toBe(0);
  // It follows, and has shown nothing since it was started.
  await says(LATE(null));
  expect(await behindMs(replica)).toBe(0);
  await says({ ...LATE(12), follows: false });
  expect(await behindMs(replica)).toBeNull();
});

it('is looked at again every few seconds: passed over while it is late or does not answer, and taken up again', async () => {
  let now = 0;
  const said: string[] = [];
  const where = longReads(
    database.db,
    replica,
    () => now,
    (why) => void said.push(why),
  );
  const at = async (ms: number) => {
    now = ms;
    return (await where()) === replica;
  };
  await says(LATE(29));
  expect(await at(0)).toBe(true);
  await says(LATE(41));
  // What was found a moment ago stands.
  expect([await at(100), await at(5000)]).toEqual([true, true]);
  expect(await at(5001)).toBe(false);
  expect(said).toEqual(['it is 41 s behind']);
  await says(CAUGHT_UP);
  expect(await at(10_001)).toBe(false);
  expect(said).toHaveLength(1);
  expect(await at(10_002)).toBe(true);
  await says({ ...CAUGHT_UP, waits: 3 });
  const began = performance.now();
  expect(await at(20_000)).toBe(false);
  // A page does not wait for it.
  expect(performance.now() - began).toBeLessThan(2900);
  await says({ ...CAUGHT_UP, follows: false });
  expect(await at(30_000)).toBe(false);
  expect(said.slice(1)).toEqual(['it does not answer, or follows no other', 'it does not answer, or follows no other']);
});
