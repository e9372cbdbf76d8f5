import { randomUUID } from 'node:crypto';
import { text } from 'node:stream/consumers';
import { beforeAll, describe, expect, it } from 'vitest';
import { forgetTries, giveBackTry, sweepTries, takeTry } from '@/lib/database/brakes';
import { refusedBy } from '@/lib/database/constraints';
import { insertMany } from '@/lib/database/insert-many';
import { writeOrNull } from '@/lib/database/json';
import { lockAll, lockRow, tryLockAll } from '@/lib/database/lock';
import { attempt } from '@/lib/database/savepoint';
import { matching } from '@/lib/database/search';
import { withSnapshot } from '@/lib/database/snapshot';
import { sqlStateOf } from '@/lib/database/sql-state';
import { storable } from '@/lib/database/storable';
import { STORED_HOURS } from '@/lib/database/stored/shop';
import { isAway, isBusy, isFull, withinTransaction } from '@/lib/database/transaction';
import { useDatabase } from '../../support/database';
import { customerRow, findingRow, haveOneUnit, unitRow, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const after = (ms: number) => new Date(now.getTime() + ms);
let on: Awaited<ReturnType<typeof haveOneUnit>>;
beforeAll(async () => {
  on = await haveOneUnit(database.db);
});
const refusal = (work: Promise<unknown>) =>
  work.then(
    () => expect.fail('it was taken'),
    (e: unknown) => e,
  );
const customer = (name: string) => database.db.customer.findFirst({ where: { name } });

describe('a brake', () => {
  const limit = { most: 3, withinMs: 60_000 };

  it('lets exactly so many through at once, whoever asks, and counts none that it refused', async () => {
    const { db } = database;
    const key = randomUUID();
    const passed = await Promise.all(Array.from({ length: 12 }, () => takeTry(db, key, limit, now)));
    expect(passed.filter(Boolean)).toHaveLength(3);
    expect((await db.brake.findUniqueOrThrow({ where: { key } })).tries).toHaveLength(3);
    expect(await takeTry(db, randomUUID(), limit, now)).toBe(true);
  });

  it('lets go as its tries grow old, one by one', async () => {
    const { db } = database;
    const key = randomUUID();
    for (const s of [0, 20, 40]) expect(await takeTry(db, key, limit, after(s * 1000))).toBe(true);
    expect(await takeTry(db, key, limit, after(59_999))).toBe(false);
    expect(await takeTry(db, key, limit, after(60_000))).toBe(true);
    expect(await takeTry(db, key, limit, after(60_001))).toBe(false);
    expect(await db.brake.findUnique({ where: { key } })).toMatchObject({
      lastAt: after(60_000),
      tries: [after(20_000), after(40_000), after(60_000)],
    });
  });

  it('takes back one try that was no guess, forgets all of a key, and clears away what nobody asks about', async () => {
    const { db } = database;
    const [key, other] = [randomUUID(), randomUUID()];
    for (const ms of [0, 1, 2]) await takeTry(db, key, limit, after(ms));
    await takeTry(db, other, limit, after(0));
    await giveBackTry(db, key, after(1));
    await giveBackTry(db, key, after(9));
    const tries = async (of = key) => (await db.brake.findUnique({ where: { key: of } }))?.tries;
    expect(await tries()).toEqual([after(0), after(2)]);
    expect(await takeTry(db, key, limit, after(3))).toBe(true);
    await forgetTries(db, key);
    expect([await tries(), await tries(other)]).toEqual([undefined, [after(0)]]);
    const day = 24 * 3_600_000;
    await sweepTries(db, after(day));
    expect(await tries(other)).toHaveLength(1);
    await sweepTries(db, after(day + 1));
    expect(await tries(other)).toBeUndefined();
  });
});

describe('a transaction', () => {
  it('is taken back whole where its work fails, and one within it is the same', async () => {
    const { db } = database;
    const broken = withinTransaction(db, async (tx) => {
      await tx.customer.create({ data: customerRow({ name: 'Outer' }) });
      await withinTransaction(tx, (inner) => inner.customer.create({ data: customerRow({ name: 'Inner' }) }));
      expect(await tx.customer.count({ where: { name: { in: ['Outer', 'Inner'] } } })).toBe(2);
      throw new Error('no');
    });
    await expect(broken).rejects.toThrow('no');
    expect([await customer('Outer'), await customer('Inner')]).toEqual([null, null]);
    expect(await withinTransaction(db, async () => 7)).toBe(7);
  });

  it('goes on after an attempt that failed in it, without what that had written', async () => {
    const { db } = database;
    const [one, two] = await withinTransaction(db, async (tx) => {
      await tx.customer.create({ data: customerRow({ name: 'Before' }) });
      const failed = await attempt(tx, async () => {
        await tx.customer.create({ data: customerRow({ name: 'Half' }) });
        await tx.customer.create({ data: customerRow({ name: 'Before' }) });
      });
      const held = await attempt(tx, () => tx.customer.create({ data: customerRow({ name: 'After' }) }));
      return [failed, held];
    });
    expect([refusedBy(one), two]).toEqual(['Customer_name_key', null]);
    expect([await customer('Before'), await customer('After')]).toMatchObject([{ name: 'Before' }, { name: 'After' }]);
    expect(await customer('Half')).toBeNull();
    const nothing = await withinTransaction(db, (tx) => attempt(tx, () => Promise.reject(undefined as unknown as Error)));
    expect(nothing).toBeInstanceOf(Error);
  });

  it('holds a row, or one of the program’s own locks, until it ends', async () => {
    const { db } = database;
    const seen: string[] = [];
    await db.$transaction(async (tx) => {
      await lockRow(tx, 'Kitchen', on.kitchen.id);
      await lockAll(tx, 'travel');
      const other = async (what: 'travel' | 'owners') => db.$transaction((second) => tryLockAll(second, what));
      expect([await other('travel'), await other('owners')]).toEqual([false, true]);
      const locked = await refusal(db.$queryRaw`SELECT 1 FROM "Kitchen" WHERE id = ${on.kitchen.id}::uuid FOR UPDATE NOWAIT`);
      expect(sqlStateOf(locked)).toBe('55P03');
      await db.$queryRaw`SELECT 1 FROM "Unit" WHERE id = ${on.unit.id}::uuid FOR UPDATE NOWAIT`;
      seen.push('held');
    });
    expect(await db.$transaction((tx) => tryLockAll(tx, 'travel'))).toBe(true);
    expect(seen).toEqual(['held']);
  });
});

it.each(['Customer', 'Kitchen', 'Unit', 'Task', 'User'] as const)('a row of %s that is held lets nobody else hold it', async (table) => {
  const { db } = database;
  const id = { Customer: on.kitchen.customerId, Kitchen: on.kitchen.id, Unit: on.unit.id, Task: on.tasks[0]?.id ?? '', User: on.person.id }[table]; // prettier-ignore
  const now = (tx: Pick<typeof db, '$queryRawUnsafe'>) => tx.$queryRawUnsafe(`SELECT 1 FROM "${table}" WHERE id = '${id}' FOR UPDATE NOWAIT`); // prettier-ignore
  await db.$transaction(async (tx) => {
    await lockRow(tx, table, id);
    expect(sqlStateOf(await refusal(now(db)))).toBe('55P03');
  });
  expect(await now(db)).toHaveLength(1);
});

describe('a rule of the database that refuses', () => {
  it('is told by its name, whatever shape the error comes in', async () => {
    const { db } = database;
    const visit = await db.visit.create({ data: visitRow(on.kitchen.id, on.person.id, now, 60) });
    const tasks = on.tasks.find((t) => t.kindKey === 'coil_cleaning') ?? expect.fail();
    const name = async (work: Promise<unknown>) => refusedBy(await refusal(work));
    expect(await name(db.unit.create({ data: unitRow(on.kitchen.id, { name: on.unit.name.toUpperCase() }) }))).toBe('unit_name_in_kitchen');
    expect(await name(db.unit.create({ data: unitRow(on.kitchen.id, { name: 'Another', tag: on.unit.tag }) }))).toBe('Unit_tag_key');
    expect(await name(db.visit.create({ data: visitRow(on.kitchen.id, on.person.id, after(60_000), 60) }))).toBe(
      'visit_technician_no_overlap',
    );
    const finding = findingRow(visit.id, on.unit.id, 'coil', 'bare', now);
    await db.finding.create({ data: finding });
    expect(await name(db.finding.create({ data: { ...finding, id: randomUUID() } }))).toBe('finding_one_current');
    const closed = { status: 'done', closedAt: after(-7_200_000) } as const;
    const over = await db.visit.create({ data: visitRow(on.kitchen.id, on.person.id, after(-10_800_000), 60, closed) });
    const done = visitTaskRow(over.id, tasks, { outcome: 'done', open: false });
    expect(await name(db.visitTask.create({ data: done }))).toMatch(/^visit_(low_side_looked_at|two_grades)$/);
    await db.kitchen.update({ where: { id: on.kitchen.id }, data: { lat: 1, lng: 1, positionFrom: 'hand' } });
    const moved = db.kitchen.update({ where: { id: on.kitchen.id }, data: { lat: 2, positionFrom: 'address' } });
    expect(await name(moved)).toBe('kitchen_hand_position_stands');
    expect(await name(db.user.create({ data: { ...on.person, id: randomUUID() } as never }))).toBe('User_email_key');
    // What no rule of ours refused, and what is no error at all.
    expect(await name(db.$queryRaw`SELECT 1/0`)).toBeNull();
    expect([refusedBy('unit_name_in_kitchen'), refusedBy(null), refusedBy(new Error('x'))]).toEqual([null, null, null]);
    const circle: { self?: unknown } = {};
    circle.self = circle;
    expect(refusedBy(Object.assign(new Error('x'), { meta: circle, cause: 'part_counts' }))).toBe('part_counts');
  });

  it('is told by PostgreSQL’s five letters too, however deep they lie', async () => {
    const { db } = database;
    expect(sqlStateOf(await refusal(db.$queryRaw`SELECT 1/0`))).toBe('22012');
    const wrapped = (depth: number): object => (depth === 0 ? { originalCode: '53100' } : { cause: wrapped(depth - 1) });
    expect([sqlStateOf(wrapped(4)), sqlStateOf(wrapped(5))]).toEqual(['53100', null]);
    expect(sqlStateOf({ meta: { driverAdapterError: { cause: { originalCode: '57P01' } } } })).toBe('57P01');
    for (const none of [
      null,
      undefined,
      'x',
      { originalCode: 7 },
      { originalCode: '531' },
      { originalCode: 'x23505' },
      { originalCode: '23505x' },
    ])
      expect(sqlStateOf(none)).toBeNull();
    const of = (code: string) => Object.assign(new Error('x'), { code });
    expect(['P2024', '53300'].map((c) => isBusy(of(c)))).toEqual([true, true]);
    for (const said of [
      'Unable to start a transaction in the given time',
      'timeout exceeded when trying to connect',
      'sorry, too many clients already',
    ])
      expect(isBusy(new Error(said))).toBe(true);
    expect([isBusy({ code: 'P2024' }), isBusy(of('P2002')), isFull({ message: 'No space left on device' })]).toEqual([false, false, false]);
    expect(['ECONNREFUSED', 'ECONNRESET', 'P1001', 'P1017'].map((c) => isAway(of(c)))).toEqual([true, true, true, true]);
    expect(['08006', '57P01', '57P02', '57P03'].map((c) => isAway({ originalCode: c }))).toEqual([true, true, true, true]);
    expect(['57P04', '57014', '40001'].map((c) => isAway({ originalCode: c }))).toEqual([false, false, false]);
  });
});

describe('many rows in one statement', () => {
  it('take the database’s own values where they name none; nothing is written of no rows, nor under what is no column', async () => {
    const { db } = database;
    await insertMany(db, 'Customer', []);
    const rows = ['Many A', 'Many B'].map((name) => ({ id: randomUUID(), name }));
    await insertMany(db, 'Customer', rows);
    expect(await db.customer.findMany({ where: { name: { startsWith: 'Many' } }, orderBy: { name: 'asc' } })).toMatchObject(
      rows.map((r) => ({ ...r, archivedAt: null, language: 'en', email: '' })),
    );
    for (const key of ['name") --', '"x" name', 'two words'])
      await expect(insertMany(db, 'Customer', [{ id: randomUUID(), [key]: 'x' }])).rejects.toThrow(`not column names: id, ${key}`);
  });
});

describe('what is stored', () => {
  it('has no letter that the database cannot hold, nothing nested without end, and no name that trips the client', async () => {
    const { db } = database;
    expect(storable('a\u0000b\uD800c')).toBe('a\uFFFDb\uFFFDc');
    expect(storable({ list: ['\u0000', 1, null, true], 'k\u0000': { constructor: 'x' } })).toEqual({
      list: ['\uFFFD', 1, null, true],
      'k\uFFFD': { '\uFFFDconstructor': 'x' },
    });
    expect(storable('👍 whole')).toBe('👍 whole');
    expect(storable(now)).toBe(now);
    const nested = (depth: number): unknown => (depth === 0 ? 'core' : [nested(depth - 1)]);
    expect(JSON.stringify(storable(nested(40)))).toContain('core');
    expect(JSON.stringify(storable(nested(42)))).toContain('nested deeper than can be kept');
    const value = storable({ ['__proto__']: 1, text: '\u0000' });
    const [row] = await db.$queryRaw<{ kept: object }[]>`SELECT ${JSON.stringify(value)}::jsonb AS kept`;
    expect(row?.kept).toEqual({ '\uFFFD__proto__': 1, text: '\uFFFD' });
    const hours = [{ weekday: 1, from: '07:00', to: '09:00' }] as const;
    expect(writeOrNull(STORED_HOURS, [...hours])).toEqual(STORED_HOURS.write([...hours]));
    await db.kitchen.update({ where: { id: on.kitchen.id }, data: { serviceHours: STORED_HOURS.write([...hours]) } });
    expect(STORED_HOURS.read((await db.kitchen.findUniqueOrThrow({ where: { id: on.kitchen.id } })).serviceHours)).toEqual(hours);
  });

  it('is found by any part of it, its own marks taken as they are written', async () => {
    const { db } = database;
    const own = ['50% off_season', '50 of season', 'back\\slash'];
    await db.customer.createMany({ data: own.map((name) => customerRow({ name })) });
    // Others of this file are numbered, and may well have a 50.
    const found = async (said: string) =>
      (
        await db.$queryRaw<
          { name: string }[]
        >`SELECT name FROM "Customer" WHERE name = ANY(${own}) AND name ILIKE ${matching(said)} ORDER BY name`
      ).map((c) => c.name);
    expect(await found('50')).toEqual(['50 of season', '50% off_season']);
    expect(await found(' 0% OFF ')).toEqual(['50% off_season']);
    expect(await found('f_s')).toEqual(['50% off_season']);
    expect(await found('k\\s')).toEqual(['back\\slash']);
    expect(await found('%')).toEqual(['50% off_season']);
  });
});

describe('a snapshot', () => {
  it('is everything as of one moment, some at a time or as a file, with each table as it is laid out', async () => {
    const { db, url } = database;
    const names = ['Snap 1', 'Snap, "2"', 'Snap 3'];
    await db.customer.createMany({ data: names.map((name) => customerRow({ name })) });
    const SNAPS = `SELECT name FROM "Customer" WHERE name LIKE 'Snap%' ORDER BY name`;
    await withSnapshot(url, async (snapshot) => {
      expect(await snapshot.rows(SNAPS)).toHaveLength(3);
      // What comes afterwards is not of that moment, and the shop goes on meanwhile.
      await db.customer.create({ data: customerRow({ name: 'Snap late' }) });
      expect(await snapshot.rows<{ name: string }>(SNAPS)).toEqual(names.toSorted().map((name) => ({ name })));
      const pieces = [];
      for await (const piece of snapshot.each<{ name: string }>(SNAPS, 2)) pieces.push(piece.length);
      expect(pieces).toEqual([2, 1]);
      for await (const piece of snapshot.each(SNAPS, 1)) if (piece.length > 0) break;
      expect(await text(snapshot.copy(SNAPS, 'csv'))).toBe('name\nSnap 1\nSnap 3\n"Snap, ""2"""\n');
      const lines = await text(snapshot.copy(`SELECT to_json(name) FROM (${SNAPS}) s`, 'json'));
      expect(
        lines
          .trim()
          .split('\n')
          .map((line): unknown => JSON.parse(line)),
      ).toEqual(['Snap 1', 'Snap 3', 'Snap, "2"']);
      const tables = await snapshot.tables();
      const of = (name: string) => tables.find((t) => t.name === name);
      expect(of('_prisma_migrations')).toBeUndefined();
      expect(of('Foresight')?.key).toEqual(['visitId', 'unitId']);
      const column = (table: string, name: string) => of(table)?.columns.find((c) => c.name === name);
      expect(column('Unit', 'kitchenId')).toEqual({
        name: 'kitchenId',
        type: 'uuid',
        isEnum: false,
        isArray: false,
        nullable: false,
        pointsTo: 'Kitchen',
      });
      expect(column('Unit', 'kind')).toMatchObject({ isEnum: true, isArray: false, pointsTo: null });
      expect(column('Unit', 'chargeKg')).toMatchObject({ type: 'double precision', nullable: true });
      expect(column('User', 'skills')).toMatchObject({ isEnum: true, isArray: true });
      expect(column('Brake', 'tries')).toMatchObject({ isEnum: false, isArray: true });
      expect(tables.map((t) => t.name)).toEqual(tables.map((t) => t.name).toSorted((a, b) => (a < b ? -1 : 1)));
      expect((await snapshot.enums()).get('JobState')?.slice(0, 3)).toEqual(['asked', 'looked_at', 'quoted']);
      await expect(snapshot.rows(`DELETE FROM "Customer"`)).rejects.toThrow(/read-only/);
    });
    const gone = withSnapshot(url, () => Promise.reject(new Error('given up')));
    await expect(gone).rejects.toThrow('given up');
    const [left] = await db.$queryRaw<
      { n: number }[]
    >`SELECT count(*)::int AS n FROM pg_stat_activity WHERE datname = current_database() AND state = 'idle in transaction'`;
    expect(left?.n).toBe(0);
  });
});
