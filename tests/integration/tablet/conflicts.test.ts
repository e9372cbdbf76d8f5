import type { CondenserKind, UnitKind } from '@/lib/core/equipment/build';
import { has } from '@/lib/core/findings/for-unit';
import type { Aspect } from '@/lib/core/findings/grades';
import { describe, expect, it } from 'vitest';
import { applyEntries } from '@/lib/features/tablet/verbs/apply-entries';
import { isAway, isFull } from '@/lib/database/transaction';
import { useDatabase } from '../../support/database';
import { personRow } from '../../support/factories';
import { readRound } from '@/lib/features/tablet/verbs/round';
import { finding, haveVisit, MORNING, officeTold, Tablet } from './a-tablet';

const database = useDatabase();
const minutes = (n: number) => new Date(MORNING.getTime() + n * 60_000);

describe('two tablets on one visit', () => {
  it('keep both findings, let the later made one stand and tell the office', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const [first, second] = [new Tablet(db, person), new Tablet(db, person)];
    await first.refresh();
    await second.refresh();
    const early = first.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'furred'), { madeAt: minutes(5).toISOString() });
    const late = second.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'packed'), { madeAt: minutes(9).toISOString() });
    expect((await second.send([late], minutes(20))).results[0]?.outcome).toBe('applied');
    const reply = await first.send([early], minutes(30));
    expect(reply.results[0]).toMatchObject({ outcome: 'conflict', note: expect.stringContaining('packed and furred') });
    const rows = await db.finding.findMany({ where: { visitId: visit.id }, orderBy: { at: 'asc' } });
    expect(rows.map((r) => [r.grade, r.supersededAt === null])).toEqual([
      ['furred', false],
      ['packed', true],
    ]);
    expect((await first.refresh()).changed[0]?.entries.findings).toEqual((await second.refresh()).changed[0]?.entries.findings);
  });

  it('are no conflict where one tablet replaces what it has seen', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const [first, second] = [new Tablet(db, person), new Tablet(db, person)];
    const seen = first.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'furred'));
    await first.send([seen]);
    second.clock = minutes(10);
    const reply = await second.send([second.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted', { replaces: seen.id }))]);
    expect(reply.results[0]?.outcome).toBe('applied');
  });

  it('close the visit once; what comes later is kept, and the office alone is asked', async () => {
    const { db } = database;
    const { visit, unit, person, tasks } = await haveVisit(db);
    const [first, second] = [new Tablet(db, person), new Tablet(db, person)];
    const closing = (t: Tablet) => [
      t.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }),
      t.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'furred')),
      t.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare', { phase: 'left' })),
      t.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
      t.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'runs')),
      ...tasks.map((k) => t.make(visit.id, 'task.done', { taskId: k.id })),
      t.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
      t.make(visit.id, 'visit.close', { leftAt: minutes(40).toISOString(), taskIds: tasks.map((k) => k.id) }),
    ];
    await first.send(closing(first), minutes(60));
    const reply = await second.send(
      [...closing(second), second.make(visit.id, 'finding.set', finding(unit.id, 'condenser_fan', 'worn'))],
      minutes(90),
    );
    expect(reply.results.every((r) => r.outcome !== 'rejected')).toBe(true);
    // "Dry" and "dry" is no question, nor is a second closing: only what differs is, and that one is the office's.
    expect(reply.results.every((r) => r.outcome === 'applied')).toBe(true);
    const asked = await db.entry.findMany({ where: { visitId: visit.id, outcome: 'conflict', deviceId: second.id } });
    expect(asked.map((o) => [o.id, (o.detail as { note: string }).note])).toEqual([
      [reply.results.at(-1)?.id, expect.stringContaining('after the visit was closed')],
    ]);
    expect(await db.visitEvent.count({ where: { visitId: visit.id, kind: 'closed' } })).toBe(1);
    expect(await db.finding.count({ where: { visitId: visit.id, aspect: 'condenser_fan', grade: 'worn' } })).toBe(1);
  });
});

describe('the office changed something while the tablet was away', () => {
  it('work on a visit given to someone else is taken in, and both see whose it is', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    await tablet.refresh();
    const other = await db.user.create({ data: personRow({ name: 'June Castell' }) });
    await db.visit.update({ where: { id: visit.id }, data: { technicianId: other.id } });
    const reply = await tablet.send([tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted'))]);
    expect(reply.results[0]).toMatchObject({ outcome: 'conflict', note: expect.stringContaining('June Castell') });
    expect(await db.finding.count({ where: { visitId: visit.id, supersededAt: null } })).toBe(1);
    expect((await tablet.refresh()).changed.find((v) => v.id === visit.id)?.nowWith).toBe('June Castell');
  });

  it('a visit that was never on the tablet is not written on, and the entry is kept word for word', async () => {
    const { db } = database;
    const { visit, unit } = await haveVisit(db);
    const stranger = await db.user.create({ data: personRow() });
    const tablet = new Tablet(db, stranger);
    const op = tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted'));
    expect((await tablet.send([op])).results[0]?.outcome).toBe('rejected');
    expect(await db.finding.count({ where: { visitId: visit.id } })).toBe(0);
    expect((await db.entry.findUniqueOrThrow({ where: { id: op.id } })).payload).toEqual(op.payload);
  });

  it('a unit taken out of use keeps what was found on it', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    await db.unit.update({ where: { id: unit.id }, data: { archivedAt: MORNING, archivedWhy: 'sold' } });
    const reply = await tablet.send([tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare'))]);
    expect(await officeTold(db, reply.results[0])).toContain('taken out of use');
    expect(await db.finding.count({ where: { unitId: unit.id } })).toBe(1);
  });

  it('a cancelled visit stays cancelled, its entries stay, and the office is asked', async () => {
    const { db } = database;
    const { visit, unit, person, tasks } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    await db.visit.update({ where: { id: visit.id }, data: { status: 'cancelled', cancelReason: 'kitchen closed' } });
    const reply = await tablet.send([
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare')),
      tablet.make(visit.id, 'visit.close', { leftAt: minutes(30).toISOString(), taskIds: tasks.map((t) => t.id) }),
    ]);
    expect(reply.results.map((r) => r.outcome)).toEqual(['conflict', 'conflict']);
    expect((await db.visit.findUniqueOrThrow({ where: { id: visit.id } })).status).toBe('cancelled');
    expect(await db.finding.count({ where: { visitId: visit.id } })).toBe(1);
  });

  it('a task taken off the visit counts when it was done; one moved to another visit is only told', async () => {
    const { db } = database;
    const { visit, person, kitchen, coil, tasks } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    await db.visitTask.deleteMany({ where: { visitId: visit.id, taskId: coil.id } });
    const counts = await tablet.send([tablet.make(visit.id, 'task.done', { taskId: coil.id })]);
    expect(await officeTold(db, counts.results[0])).toContain('it counts');
    expect((await db.visitTask.findUniqueOrThrow({ where: { visitId_taskId: { visitId: visit.id, taskId: coil.id } } })).outcome).toBe(
      'done',
    );

    const moved = tasks.find((t) => t.id !== coil.id);
    if (!moved) throw new Error('one task only');
    const later = await db.visit.create({
      data: { kitchenId: kitchen.id, technicianId: person.id, startsAt: minutes(3000), endsAt: minutes(3060) },
    });
    await db.visitTask.updateMany({ where: { taskId: moved.id }, data: { visitId: later.id } });
    const reply = await tablet.send([tablet.make(visit.id, 'task.done', { taskId: moved.id })]);
    expect(await officeTold(db, reply.results[0])).toContain('another visit');
  });
});

describe('the tablet’s clock', () => {
  it('a day ahead: nothing is dated into the future', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    tablet.clock = minutes(24 * 60);
    const received = minutes(30);
    await tablet.send(
      [
        tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'furred')),
        tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'packed')),
      ],
      received,
    );
    const rows = await db.finding.findMany({ where: { visitId: visit.id } });
    expect(rows.every((r) => r.at.getTime() <= received.getTime())).toBe(true);
    expect(rows.filter((r) => r.supersededAt === null).map((r) => r.grade)).toEqual(['packed']);
    expect((await db.entry.findFirstOrThrow({ where: { visitId: visit.id } })).detail).toMatchObject({
      clockCorrectedMs: expect.any(Number),
    });
  });

  it('a day behind: nothing is dated before the refresh it was based on', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    tablet.clock = minutes(-24 * 60);
    await tablet.send([tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'furred'))], minutes(30));
    expect((await db.finding.findFirstOrThrow({ where: { visitId: visit.id } })).at.toISOString()).toBe(MORNING.toISOString());
  });
});

describe('order and versions', () => {
  it('an entry before its predecessor waits; a reused number asks for a new identity', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const [one, two] = [
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'condenser_fan', 'sound')),
    ];
    expect(await tablet.send([two])).toMatchObject({ results: [], lastSeq: 0, stopped: 'gap' });
    expect((await tablet.send([one, two])).results).toHaveLength(2);
    expect(await tablet.send([{ ...one, id: crypto.randomUUID() }])).toMatchObject({ results: [], lastSeq: 2, stopped: 'renumber' });
  });

  it('an entry of an older tablet is brought up to date', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const old = tablet.make(
      visit.id,
      'finding.set',
      { unitId: unit.id, aspect: 'coil', grade: 'furred', notLookedWhy: '', note: '' } as never,
      { version: 1 },
    );
    expect((await tablet.send([old])).results[0]?.outcome).toBe('applied');
    expect((await db.finding.findUniqueOrThrow({ where: { id: old.id } })).phase).toBe('found');
  });

  it('an entry of a newer tablet waits for the office to be updated', async () => {
    const { db } = database;
    const { visit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const reply = await tablet.send([tablet.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }, { version: 99 })]);
    expect(reply).toMatchObject({ results: [], stopped: 'office_older' });
    expect(await db.entry.count({ where: { visitId: visit.id } })).toBe(0);
  });

  it('an unreadable entry is kept word for word and holds up nothing', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const reply = await tablet.send([
      tablet.make(visit.id, 'finding.set', { unitId: unit.id, aspect: 'coil', grade: 'sparkling' } as never),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'condenser_fan', 'sound')),
    ]);
    expect(reply.results.map((r) => r.outcome)).toEqual(['rejected', 'applied']);
    expect((await db.entry.findFirstOrThrow({ where: { visitId: visit.id, outcome: 'rejected' } })).payload).toMatchObject({
      grade: 'sparkling',
    });
  });
});

describe('whose tablet', () => {
  it('work of one person is not sent under another sign-in, but the office may take it in for them', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const other = await db.user.create({ data: personRow() });
    const desk = await db.user.create({ data: personRow({ role: 'dispatcher', name: 'Idris Fenn' }) });
    const tablet = new Tablet(db, person);
    const op = tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare'));
    const as = (who: { id: string }, role: 'technician' | 'dispatcher') => ({ userId: who.id, name: '', role, sessionId: '' });
    await expect(tablet.send([op], minutes(9), as(other, 'technician'))).rejects.toMatchObject({ code: 'not_allowed' });
    expect((await tablet.send([op], minutes(9), as(desk, 'dispatcher'))).results[0]?.outcome).toBe('applied');
    expect((await db.finding.findFirstOrThrow({ where: { visitId: visit.id } })).byUserId).toBe(person.id);
    // A tablet has one holder, whoever names another: not even the office takes its work in under another name.
    const device = { id: tablet.id, name: 'Tablet', appVersion: 'test' };
    for (const [who, role, holder] of [
      [other, 'technician', other.id],
      [desk, 'dispatcher', other.id],
    ] as const)
      // prettier-ignore
      await expect(
        applyEntries({ db, actor: as(who, role), now: minutes(10) }, { device: { ...device, holder }, sentAt: minutes(10).toISOString(), entries: [] }),
      ).rejects.toMatchObject({ code: 'not_allowed' });
    expect((await db.device.findUniqueOrThrow({ where: { id: tablet.id } })).userId).toBe(person.id);
  });
});

describe('after the closing', () => {
  const closed = async (db: Parameters<typeof haveVisit>[0]) => {
    const made = await haveVisit(db);
    const tablet = new Tablet(db, made.person);
    const batch = [
      tablet.make(made.visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }),
      ...made.tasks.map((k) =>
        k.id === made.coil.id
          ? tablet.make(made.visit.id, 'task.not_done', { taskId: k.id, reason: 'No power' })
          : tablet.make(made.visit.id, 'task.done', { taskId: k.id }),
      ),
      tablet.make(made.visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
      tablet.make(made.visit.id, 'visit.close', { leftAt: minutes(30).toISOString(), taskIds: made.tasks.map((k) => k.id) }),
    ];
    return { ...made, tablet, batch };
  };
  const outcomeOf = async (db: Parameters<typeof haveVisit>[0], visitId: string, taskId: string) =>
    (await db.visitTask.findUniqueOrThrow({ where: { visitId_taskId: { visitId, taskId } } })).outcome;

  it('a cleaning answered without a look at the low side is refused, and holds up nothing of its batch', async () => {
    const { db } = database;
    const { visit, coil, unit, tablet, batch } = await closed(db);
    const late = tablet.make(visit.id, 'task.done', { taskId: coil.id });
    const part = tablet.make(visit.id, 'part.use', { unitId: unit.id, what: 'Fan blade', quantity: 1 });
    const { results, stopped } = await tablet.send([...batch, late, part]);
    expect(stopped).toBeNull();
    expect(results.find((r) => r.id === late.id)).toMatchObject({
      outcome: 'rejected',
      note: expect.stringContaining('not everything was looked at: ice'),
    });
    expect(
      await officeTold(
        db,
        results.find((r) => r.id === part.id),
      ),
    ).toContain('after the visit was closed');
    expect(await outcomeOf(db, visit.id, coil.id)).toBe('not_done');
    expect((await db.visit.findUniqueOrThrow({ where: { id: visit.id } })).status).toBe('done');
  });

  it('the database itself holds that rule', async () => {
    const { db } = database;
    const { visit, coil, tablet, batch } = await closed(db);
    await tablet.send(batch);
    await expect(
      db.visitTask.update({ where: { visitId_taskId: { visitId: visit.id, taskId: coil.id } }, data: { outcome: 'done' } }),
    ).rejects.toThrow(/low side not looked at/);
  });

  it('what a unit has to look at is the same in the database', async () => {
    const rows = await database.db.$queryRaw<{ kind: UnitKind; condenserKind: CondenserKind; aspect: Aspect; there: boolean }[]>`
      SELECT k AS kind, c AS "condenserKind", a AS aspect, unit_has(k, c, a) AS there
      FROM unnest(enum_range(NULL::"UnitKind")) k, unnest(enum_range(NULL::"CondenserKind")) c, unnest(enum_range(NULL::"Aspect")) a`;
    expect(rows.length).toBeGreaterThan(200);
    expect(rows.filter((r) => has(r, r.aspect) !== r.there)).toEqual([]);
  });

  it('a cleaning whose low side was looked at counts, and its dates move as at a closing', async () => {
    const { db } = database;
    const { visit, coil, unit, tablet, batch } = await closed(db);
    await tablet.send(batch);
    const before = await db.task.findUniqueOrThrow({ where: { id: coil.id } });
    const late = tablet.make(visit.id, 'task.done', { taskId: coil.id });
    await tablet.send(
      [
        tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'furred')),
        tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare', { phase: 'left' })),
        tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
        tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'runs')),
        late,
      ].map((o, i) => ({ ...o, seq: batch.length + 1 + i })),
    );
    expect(await outcomeOf(db, visit.id, coil.id)).toBe('done');
    const after = await db.task.findUniqueOrThrow({ where: { id: coil.id } });
    expect(after.lastDoneOn?.toISOString().slice(0, 10)).toBe('2026-11-25');
    expect(after.dueOn.getTime()).toBeGreaterThan(before.dueOn.getTime());
  });
});

describe('what no database can hold, and what cannot be', () => {
  it('a stray character is replaced and holds up nothing, read or unread', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const stray = tablet.make(visit.id, 'part.use', { unitId: unit.id, what: 'Belt\u0000 \ud800A38', quantity: 1 });
    const unread = tablet.make(visit.id, 'part.use', { unitId: unit.id, what: 'x\u0000', quantity: -1 });
    const after = tablet.make(visit.id, 'part.use', { unitId: unit.id, what: 'Fan', quantity: 1 });
    expect((await tablet.send([stray, unread, after])).results.map((r) => r.outcome)).toEqual(['applied', 'rejected', 'applied']);
    expect((await db.partUsed.findUniqueOrThrow({ where: { id: stray.id } })).what).toBe('Belt\ufffd \ufffdA38');
  });

  it('a gauge grade that does not exist is refused, on a closed visit too', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const reading = {
      unitId: unit.id,
      phase: 'before' as const,
      values: { headPaGauge: 1e6, airInK: 305 },
      gaugeGrade: '9Z',
      gaugeSpanPa: 3.4e6,
      entered: {},
      questioned: [],
      replaces: null,
    };
    expect((await tablet.send([tablet.make(visit.id, 'reading.add', reading)])).results[0]?.outcome).toBe('rejected');
  });

  it('an arrival by a clock a day behind or ahead, or of 1970, is when the entry was made', async () => {
    const { db } = database;
    const { visit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    for (const wrong of ['1970-01-01T00:00:00.000Z', minutes(-1440).toISOString(), minutes(1440).toISOString()]) {
      await db.visit.update({ where: { id: visit.id }, data: { arrivedAt: null, status: 'booked' } });
      const start = tablet.make(visit.id, 'visit.start', { arrivedAt: wrong });
      await tablet.send([start]);
      expect((await db.visit.findUniqueOrThrow({ where: { id: visit.id } })).arrivedAt?.toISOString()).toBe(start.madeAt);
    }
  });
});

describe('one tablet, several hands and identities', () => {
  it('nobody is handed a round over someone else’s work', async () => {
    const { db } = database;
    const { person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    await tablet.refresh();
    const owner = await db.user.create({ data: personRow({ role: 'owner' }) });
    await expect(
      readRound(
        { db, actor: new Tablet(db, { id: owner.id, name: 'Maren', role: 'owner' }).actor, now: MORNING },
        { id: tablet.id, holder: person.id, name: '', appVersion: '' },
        '',
      ),
    ).rejects.toThrow(/someone else/);
  });

  it('entries known from an earlier identity count under the new one, so that the next follows on', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const old = new Tablet(db, person);
    const entries = [1, 2].map((n) => old.make(visit.id, 'part.use', { unitId: unit.id, what: `Part ${n}`, quantity: 1 }));
    await old.send(entries);
    const anew = new Tablet(db, person);
    anew.seq = 2;
    expect(await anew.send(entries)).toMatchObject({ lastSeq: 2, stopped: null });
    expect(await anew.send([anew.make(visit.id, 'part.use', { unitId: unit.id, what: 'Part 3', quantity: 1 })])).toMatchObject({
      lastSeq: 3,
      stopped: null,
    });
    expect(await db.partUsed.count({ where: { visitId: visit.id } })).toBe(3);
  });

  it.each([
    ['the database falls away', 'PERFORM pg_terminate_backend(pg_backend_pid());', isAway],
    ['its disk is full', `RAISE EXCEPTION USING ERRCODE = '53100';`, isFull],
  ])('a batch under which %s says so, files nothing of it, and is taken whole when it is sent again', async (_, happens, said) => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const entries = ['Belt', 'Fan', 'Clip'].map((what) => tablet.make(visit.id, 'part.use', { unitId: unit.id, what, quantity: 1 }));
    await db.$executeRawUnsafe(`CREATE FUNCTION fall() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN ${happens} RETURN NEW; END $$`);
    await db.$executeRaw`CREATE TRIGGER fall BEFORE INSERT ON "PartUsed" FOR EACH ROW WHEN (NEW.what = 'Fan') EXECUTE FUNCTION fall()`;
    const fallen: unknown = await tablet.send(entries).catch((e: unknown) => e);
    await db.$executeRaw`DROP FUNCTION fall CASCADE`;
    expect([said(fallen), await db.partUsed.count({ where: { visitId: visit.id } })]).toEqual([true, 0]);
    expect(await tablet.send(entries)).toMatchObject({ lastSeq: 3, stopped: null });
    expect(await db.partUsed.count({ where: { visitId: visit.id } })).toBe(3);
  });

  it('a visit given away that was on this person’s tablet may be written on under a new identity', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    await new Tablet(db, person).refresh();
    const other = await db.user.create({ data: personRow() });
    await db.visit.update({ where: { id: visit.id }, data: { technicianId: other.id } });
    const anew = new Tablet(db, person);
    expect((await anew.send([anew.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted'))])).results[0]?.outcome).toBe(
      'conflict',
    );
  });
});
