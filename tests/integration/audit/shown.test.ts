import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { changesOf, changesOfEach, changesPage } from '@/lib/features/audit/reads/audit';
import { recordChange } from '@/lib/features/intervals/verbs/record-change';
import { addCertificate, withdrawCertificate } from '@/lib/features/refrigerant-book/verbs/certificates';
import { addCylinder, placeCylinder } from '@/lib/features/refrigerant-book/verbs/cylinders';
import { editTaskKind } from '@/lib/features/tasks/verbs/task-kinds';
import { useDatabase } from '@/tests/support/database';
import { haveOneUnit, personRow } from '@/tests/support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const owner = personRow({ name: 'Maren Oake', role: 'owner' });
const actor = { userId: owner.id ?? '', role: 'owner' as const, name: owner.name, sessionId: randomUUID() };
const ctx = () => ({ db: database.db, now, actor });
let on: Awaited<ReturnType<typeof haveOneUnit>>;

beforeAll(async () => {
  on = await haveOneUnit(database.db);
  await database.db.user.create({ data: owner });
});

describe('the history on a record', () => {
  it('of a unit holds what was changed of its tasks, from what to what and why, by the task’s name', async () => {
    const task = await database.db.task.findFirstOrThrow({ where: { kindKey: 'coil_cleaning' }, include: { kind: true } });
    const patch = { minWeeks: task.minWeeks + 1, maxWeeks: task.maxWeeks };
    await recordChange(database.db, ctx(), { taskId: task.id, kind: 'edited', reason: 'The chef asked.', patch });
    expect(await changesOf(database.db, 'Unit', on.unit.id)).toMatchObject([
      {
        by: 'Maren Oake',
        part: task.kind.label,
        changed: [{ field: 'minWeeks', from: task.minWeeks, to: task.minWeeks + 1 }],
        more: [['reason', 'The chef asked.']],
      },
    ]);
    expect(await changesOf(database.db, 'Unit', randomUUID())).toEqual([]);
  });

  it('of a person holds what became of a certificate, by its number', async () => {
    await addCertificate(ctx(), { userId: on.person.id, kind: 'us_608_universal', number: 'K-77', expiresOn: null });
    const { id } = await database.db.certificate.findFirstOrThrow({ where: { number: 'K-77' } });
    await withdrawCertificate(ctx(), id);
    const changes = await changesOf(database.db, 'User', on.person.id);
    expect(changes.map((c) => [c.action, c.part])).toEqual([
      ['certificate.withdrawn', 'Certificate K-77'],
      ['certificate.added', ''],
    ]);
    expect(await changesOf(database.db, 'User', actor.userId)).toEqual([]);
  });

  it('of a cylinder says from whose van to whose', async () => {
    const at = { tare: 10, gross: 20, most: 12, note: '', withUserId: null };
    const { id } = await addCylinder(ctx(), { ...at, label: 'C-9', refrigerant: 'R-134a', contents: 'new' });
    await placeCylinder(ctx(), { id, version: 1, withUserId: on.person.id });
    const [moved] = await changesOf(database.db, 'Cylinder', id);
    expect(moved?.changed).toEqual([{ field: 'inVanOf', from: null, to: on.person.name }]);
  });

  it('of the shop holds what was changed of a kind of task, and only what differs', async () => {
    const kind = await database.db.taskKind.findUniqueOrThrow({ where: { key: 'coil_cleaning' } });
    const { key, label, minutes, defaultWeeks, minWeeks, maxWeeks, lowSide } = kind;
    await editTaskKind(ctx(), { key, label, minutes: minutes + 5, defaultWeeks, minWeeks, maxWeeks, lowSide, active: true });
    const [change] = await changesOf(database.db, 'ShopSettings', '1');
    expect(change).toMatchObject({ part: label, changed: [{ field: 'minutes', from: minutes, to: minutes + 5 }] });
  });

  it('of each in a list stands with its own', async () => {
    const [a, b, c] = [randomUUID(), randomUUID(), randomUUID()];
    for (const [entityId, action] of [
      [a, 'archive.asked'],
      [b, 'archive.asked'],
      [a, 'archive.fetched'],
    ] as const)
      // prettier-ignore
      await database.db.auditEntry.create({ data: { entity: 'ArchiveRun', entityId, action } });
    const each = await changesOfEach(database.db, 'ArchiveRun', [a, b, c]);
    expect([...each.keys()].sort()).toEqual([a, b].sort());
    expect(each.get(a)?.map((x) => x.action)).toEqual(['archive.fetched', 'archive.asked']);
  });
});

describe('what was changed, a page at a time', () => {
  const LINES = 23;
  const day = (i: number) => new Date(now.getTime() + (i % 10) * 86_400_000 + 365 * 86_400_000);
  const lost = randomUUID();
  const mine = (x: { at: Date }) => x.at.getTime() >= day(0).getTime();

  beforeAll(async () => {
    await database.db.auditEntry.createMany({
      data: Array.from({ length: LINES }, (_, i) => ({
        at: day(i),
        userId: i % 3 === 0 ? actor.userId : null,
        ...(i % 2 === 0 ? { entity: 'Unit', entityId: i === 4 ? lost : on.unit.id } : { entity: 'TravelTime', entityId: '' }),
        action: 'x.edited',
        detail: { v: 1, changed: { n: [i, i + 1] } },
      })),
    });
    // The second half of a thousandth of a second, as the database's own clock gives it.
    await database.db
      .$executeRaw`INSERT INTO "AuditEntry" (at, action, entity) VALUES (${day(3)}::timestamptz + interval '400 microseconds', 'x.edited', 'RuleChange')`;
  });

  const walk = async (narrowed: Parameters<typeof changesPage>[1], most: number) => {
    const all: Awaited<ReturnType<typeof changesPage>>['changes'] = [];
    for (let before: bigint | undefined, pages = 0; pages < 100; pages++) {
      const page = await changesPage(database.db, { ...narrowed, before }, most);
      expect(page.changes.length).toBeLessThanOrEqual(most);
      all.push(...page.changes);
      if (page.older === null) return all;
      before = BigInt(page.older);
    }
    throw new Error('It has no end.');
  };

  it.each([1, 4, 24, 100])('shows every line once, the latest first, by pages of %s', async (most) => {
    const all = await walk({}, most);
    expect(new Set(all.map((c) => c.id)).size).toBe(all.length);
    expect(all.length).toBe(await database.db.auditEntry.count());
    expect(all.map((c) => c.at.getTime())).toEqual(all.map((c) => c.at.getTime()).sort((a, b) => b - a));
  });

  it('is narrowed by kind, person and days, all at once too', async () => {
    const numbers = async (narrowed: Parameters<typeof changesPage>[1]) =>
      (await walk(narrowed, 5)).filter(mine).flatMap((c) => c.changed.map((x) => Number(x.from)));
    const want = (fits: (i: number) => boolean) => Array.from({ length: LINES }, (_, i) => i).filter(fits).sort((a, b) => a - b); // prettier-ignore
    const sorted = async (narrowed: Parameters<typeof changesPage>[1]) => (await numbers(narrowed)).sort((a, b) => a - b);
    expect(await sorted({ kind: 'Unit' })).toEqual(want((i) => i % 2 === 0));
    expect(await sorted({ userId: actor.userId })).toEqual(want((i) => i % 3 === 0));
    expect(await sorted({ from: day(2), until: day(4) })).toEqual(want((i) => [2, 3].includes(i % 10)));
    expect(await sorted({ kind: 'Unit', userId: actor.userId, from: day(2) })).toEqual(want((i) => i % 6 === 0 && i % 10 >= 2));
  });

  it('names each record and whose page it stands on; one that is gone has neither', async () => {
    const all = await walk({ from: day(0) }, 10);
    const one = (is: (c: (typeof all)[number]) => boolean) => all.find(is);
    expect(one((c) => c.kind === 'Unit' && c.changed[0]?.from === 0)).toMatchObject({
      record: `${on.unit.name}, ${on.customer.name}, ${on.kitchen.name}`,
      on: on.unit.id,
      by: 'Maren Oake',
    });
    expect(one((c) => c.changed[0]?.from === 4)).toMatchObject({ kind: 'Unit', record: '', on: '' });
    expect(one((c) => c.kind === 'TravelTime')).toMatchObject({ record: '', on: '' });
    const { changes } = await changesPage(database.db, { kind: 'Task' });
    expect(changes[0]).toMatchObject({ record: expect.stringContaining(on.unit.name) as string, on: on.unit.id });
    expect((await changesPage(database.db, { kind: 'Certificate' })).changes[0]).toMatchObject({ on: on.person.id });
    expect((await changesPage(database.db, { kind: 'TaskKind' })).changes[0]?.record).not.toBe('');
  });

  it('reads few lines more than it shows, however many there are, of the commonest kind and of a rare one', async () => {
    await database.db.$executeRaw`
      INSERT INTO "AuditEntry" (at, action, entity, "entityId", "userId")
      SELECT timestamptz '2020-01-01' + i * interval '1 minute', 'x.edited', CASE WHEN i % 1000 = 0 THEN 'Cylinder' ELSE 'Unit' END, i::text,
        CASE WHEN i % 1000 = 7 THEN ${on.person.id}::uuid ELSE ${actor.userId}::uuid END FROM generate_series(1, 60000) i`;
    await database.db.$executeRaw`ANALYZE "AuditEntry"`;
    const before = BigInt((await changesPage(database.db, { until: new Date('2020-01-20T00:00:00Z') })).older ?? '0');
    const ways = [
      {},
      { kind: 'Unit' },
      { kind: 'Cylinder' },
      { userId: actor.userId },
      { userId: on.person.id },
      { before },
      { kind: 'Unit', before },
    ];
    for (const narrowed of ways as Parameters<typeof changesPage>[1][]) {
      const lines = await database.db.$transaction(async (tx) => {
        const read = async () => {
          const [row] = await tx.$queryRaw<{ n: bigint }[]>`
            SELECT (idx_tup_fetch + seq_tup_read) AS n FROM pg_stat_xact_user_tables WHERE relname = 'AuditEntry'`;
          return Number(row?.n);
        };
        const before = await read();
        expect((await changesPage(tx, narrowed)).changes).toHaveLength(50);
        return (await read()) - before;
      });
      expect(lines, Object.keys(narrowed).join()).toBeLessThan(500);
    }
  });
});
