import { beforeAll, describe, expect, it } from 'vitest';
import type { Aspect, Grade } from '@/lib/core/findings/grades';
import { addBlackout, removeBlackout } from '@/lib/features/kitchens/verbs/blackouts';
import { localDate } from '@/lib/core/calendar';
import { kitchenToEdit, unitsOfKitchen } from '@/lib/features/kitchens/reads/kitchens';
import { countPlaced, kitchenPoints, kitchensWithoutPosition } from '@/lib/features/kitchens/reads/positions';
import { kitchenTimeline } from '@/lib/features/kitchens/reads/timeline';
import { placesAround } from '@/lib/features/kitchens/verbs/places-around';
import { useDatabase } from '../../support/database';
import {
  ANY_TIME,
  customerRow,
  findingRow,
  haveOneUnit,
  jobRow,
  kitchenRow,
  readingRow,
  unitRow,
  visitRow,
  visitTaskRow,
} from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-27T17:00:00Z');
const HOUR = 3_600_000;
const ago = (hours: number) => new Date(now.getTime() - hours * HOUR);
let have: Awaited<ReturnType<typeof haveOneUnit>>;

beforeAll(async () => {
  have = await haveOneUnit(database.db, {
    kitchen: { name: 'Dock Street', serviceHours: ANY_TIME, lat: 39.7, lng: -105 },
    unit: { name: 'Fry freezer' },
    person: { name: 'Tova Lind' },
  });
  await database.db.customer.update({ where: { id: have.customer.id }, data: { name: 'Fry House' } });
});

describe('a kitchen’s page', () => {
  it('holds its own fields, its hours, its closed days by day, and whose it is', async () => {
    const { db } = database;
    const closed = (startsOn: string, endsOn: string, reason: string) =>
      db.kitchenBlackout.create({ data: { kitchenId: have.kitchen.id, startsOn: new Date(startsOn), endsOn: new Date(endsOn), reason } });
    const [late, early] = [await closed('2026-12-24', '2026-12-27', 'Holidays'), await closed('2026-12-01', '2026-12-02', 'Inventory')];
    expect(await kitchenToEdit(db, have.kitchen.id)).toMatchObject({
      ...{ name: 'Dock Street', serviceHours: ANY_TIME, customer: { id: have.customer.id, name: 'Fry House', archivedAt: null } },
      blackouts: [
        { id: early.id, startsOn: '2026-12-01', endsOn: '2026-12-02', reason: 'Inventory' },
        { id: late.id, startsOn: '2026-12-24', endsOn: '2026-12-27', reason: 'Holidays' },
      ],
    });
    expect(await kitchenToEdit(db, have.unit.id)).toBeNull();
  });

  it('holds its units, those out of use last, each with what comes round there and the visit that it stands on', async () => {
    const { db } = database;
    const { kitchen, unit, tasks, person } = have;
    const gone = await db.unit.create({ data: unitRow(kitchen.id, { name: 'A gone one', archivedAt: now, archivedWhy: 'Sold' }) });
    const bar = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Bar fridge' }) });
    await db.task.update({ where: { id: tasks[2]!.id }, data: { active: false } });
    const visit = await db.visit.create({ data: visitRow(kitchen.id, person.id, new Date('2026-12-10T16:00:00Z'), 60) });
    await db.visitTask.create({ data: visitTaskRow(visit.id, tasks[1]!) });
    const units = await unitsOfKitchen(db, kitchen.id);
    expect(units.map((u) => u.id)).toEqual([bar.id, unit.id, gone.id]);
    const [coil, drain] = await Promise.all(
      (['coil_cleaning', 'drain_inspection'] as const).map((key) => db.taskKind.findUniqueOrThrow({ where: { key } })),
    );
    expect(units[1]?.tasks).toEqual(
      [
        { id: tasks[0]!.id, kindKey: 'coil_cleaning', label: coil?.label, sort: coil?.sort, onVisit: null },
        { id: tasks[1]!.id, kindKey: 'drain_inspection', label: drain?.label, sort: drain?.sort, onVisit: visit.id },
      ].map((t) => ({ ...t, rule: 'FREQ=WEEKLY;INTERVAL=12', dueOn: '2026-01-05' })),
    );
    await db.visit.delete({ where: { id: visit.id } });
    await db.task.update({ where: { id: tasks[2]!.id }, data: { active: true } });
  });
});

describe('closed days', () => {
  it('are of a kitchen that is on file; taken off twice is no error', async () => {
    const { db } = database;
    const ctx = { db, actor: { userId: have.person.id }, now };
    const days = { from: localDate('2027-01-04'), to: localDate('2027-01-05'), reason: 'Floor' };
    await expect(addBlackout(ctx, { kitchenId: have.unit.id, ...days })).rejects.toMatchObject({
      code: 'not_found',
      message: 'That kitchen is not on file.',
    });
    await addBlackout(ctx, { kitchenId: have.kitchen.id, ...days });
    const made = await db.kitchenBlackout.findFirstOrThrow({ where: { reason: 'Floor' } });
    await removeBlackout(ctx, made.id);
    await removeBlackout(ctx, made.id);
    const told = await db.auditEntry.findMany({ where: { entityId: have.kitchen.id }, orderBy: { id: 'asc' } });
    expect(told.map((l) => [l.action, l.entity])).toEqual([
      ['kitchen.closed_days_added', 'Kitchen'],
      ['kitchen.closed_days_removed', 'Kitchen'],
    ]);
  });
});

describe('where kitchens are', () => {
  it('those without a position are counted and sought by name, address or customer; what was found for them waits apart', async () => {
    const { db } = database;
    const zest = await db.customer.create({ data: customerRow({ name: 'Zest' }) });
    const alder = await db.customer.create({ data: customerRow({ name: 'Alder' }) });
    const bare = (customerId: string, name: string, over = {}) =>
      db.kitchen.create({ data: kitchenRow(customerId, { name, lat: null, lng: null, address: '', ...over }) });
    await bare(zest.id, 'Yard');
    await bare(alder.id, 'Quay', { address: '5 Mill Lane' });
    await bare(alder.id, 'Bay');
    const looked = await bare(alder.id, 'Looked up', { address: '7 Mill Lane' });
    await db.placeLookup.create({ data: { kitchenId: looked.id, status: 'found', address: '7 Mill Lane', askedAt: now } });
    await bare(alder.id, 'Gone', { archivedAt: now });
    const gone = await db.customer.create({ data: customerRow({ name: 'Gone', archivedAt: now }) });
    await bare(gone.id, 'Of a gone one');
    const all = await kitchensWithoutPosition(db, 10);
    expect([all.total, all.found, all.fitting]).toEqual([4, 1, 3]);
    expect(all.kitchens.map((k) => [k.customer, k.name])).toEqual([
      ['Alder', 'Bay'],
      ['Alder', 'Quay'],
      ['Zest', 'Yard'],
    ]);
    const sought = async (q: string, limit = 10) => {
      const { fitting, kitchens } = await kitchensWithoutPosition(db, limit, q);
      return [fitting, kitchens.map((k) => k.name)];
    };
    expect(await sought('mill')).toEqual([1, ['Quay']]);
    expect(await sought('YARD')).toEqual([1, ['Yard']]);
    expect(await sought('alder', 1)).toEqual([2, ['Bay']]);
  });

  it('those with one are points of a map beside the shop, by name, so many', async () => {
    const { db } = database;
    await db.shopSettings.update({ where: { id: 1 }, data: { lat: 39.5, lng: -104.5 } });
    await db.kitchen.create({ data: kitchenRow(have.customer.id, { name: 'Away', lat: 40, lng: -104 }) });
    await db.kitchen.create({ data: kitchenRow(have.customer.id, { name: 'Old place', archivedAt: now }) });
    const around = await placesAround({ db });
    expect(around.shop).toMatchObject({ lat: 39.5, lng: -104.5 });
    expect(around.kitchens.map((k) => [k.name, k.lat, k.lng])).toEqual([
      ['Fry House, Away', 40, -104],
      ['Fry House, Dock Street', 39.7, -105],
    ]);
    expect((await kitchenPoints(db, 1)).map((k) => k.name)).toEqual(['Fry House, Away']);
    expect(await countPlaced(db)).toBe(2);
  });
});

describe('a kitchen’s line of time', () => {
  const line = (most = 20) => kitchenTimeline(database.db, have.kitchen.id, now, most);

  it('says of a visit what was found, what stayed so, what was done and what is on file of it', async () => {
    const { kitchen, unit, person, tasks } = have;
    const visit = await database.db.$transaction(async (tx) => {
      const v = await tx.visit.create({
        data: visitRow(kitchen.id, person.id, ago(72), 60, { status: 'done', emergency: true, arrivedAt: ago(71), closedAt: ago(70) }),
      });
      let minutes = 0;
      const found = (aspect: Aspect, grade: Grade, over = {}) =>
        tx.finding.create({ data: findingRow(v.id, unit.id, aspect, grade, ago(71 - ++minutes / 60), over) });
      await found('coil', 'packed');
      await found('coil', 'bare', { phase: 'left' });
      await found('ice', 'dry');
      await found('drain', 'blocked');
      await found('drain', 'blocked', { phase: 'left' });
      await found('condenser_fan', 'failed', { supersededAt: ago(70) });
      for (const t of tasks.slice(0, 2)) await tx.visitTask.create({ data: visitTaskRow(v.id, t, { outcome: 'done', open: false }) });
      await tx.reading.create({ data: readingRow(unit.id, ago(71), { visitId: v.id }) });
      await tx.photo.createMany({
        data: [1, 2].map((n) => ({ id: crypto.randomUUID(), visitId: v.id, takenAt: ago(71), sha256: `${n}`.repeat(64) })),
      });
      await tx.partUsed.createMany({
        data: ['Belt', 'Clip', 'Fuse', 'Tape'].map((what, i) => ({ visitId: v.id, what, quantity: 1, at: ago(71 - i / 10) })),
      });
      return v;
    });
    const { happened, last } = await line();
    const shown = happened.find((h) => h.id === visit.id);
    expect(shown).toMatchObject({
      kind: 'visit',
      href: `/visits/${visit.id}`,
      head: 'Emergency, Tova Lind',
      at: ago(71).getTime(),
      alarm: true,
    });
    expect(shown?.lines).toEqual([
      'Found Fry freezer: coil packed; Fry freezer: drain blocked.',
      'Left so: Fry freezer: drain blocked.',
      'Done: coil cleaning 1×, drain inspection 1×.',
      '1 reading, 2 pictures, parts: Belt; Clip; Fuse; and 1 more',
    ]);
    expect(last).toEqual({
      ...{ id: visit.id, at: ago(71).getTime(), technician: 'Tova Lind' },
      ...{ found: ['Fry freezer: coil packed', 'Fry freezer: drain blocked'], left: ['Fry freezer: drain blocked'] },
    });
  });

  it('tells cancelled visits, calls, jobs and mails as what they are, the newest first, and no more than asked for', async () => {
    const { db } = database;
    const { kitchen, unit, person } = have;
    const cancelled = await db.visit.create({
      data: visitRow(kitchen.id, person.id, ago(40), 30, { status: 'cancelled', cancelReason: 'Closed for a wedding' }),
    });
    const looked = await db.visit.create({ data: visitRow(kitchen.id, person.id, ago(20), 30, { status: 'started', arrivedAt: ago(20) }) });
    await db.finding.create({ data: findingRow(looked.id, unit.id, 'ice', 'dry', ago(20)) });
    const next = await db.visit.create({ data: visitRow(kitchen.id, person.id, ago(-48), 60) });
    await db.visit.create({ data: visitRow(kitchen.id, person.id, ago(-96), 60) });
    await db.job.create({ data: jobRow(unit, { source: 'call', callerName: 'Ilse', what: 'Too warm', createdAt: ago(10) }) });
    await db.job.create({ data: jobRow(unit, { source: 'call', what: 'Drips', createdAt: ago(9) }) });
    const job = await db.job.create({
      data: jobRow(unit, { what: 'Door hangs', createdAt: ago(8), state: 'done', closedAt: ago(1), closedNote: 'New hinge' }),
    });
    const mail = (status: 'sent' | 'failed', createdAt: Date) =>
      db.outboxMessage.create({ data: { kind: 'visit_booked', toEmail: 'chef@example.com', subject: 'Visit booked', text: '', visitId: next.id, status, createdAt } }); // prettier-ignore
    await mail('sent', ago(7));
    await mail('failed', ago(6));
    const { happened, next: coming } = await line();
    expect(coming).toEqual({ id: next.id, at: ago(-48).getTime(), technician: 'Tova Lind' });
    expect(happened.slice(0, 7).map((h) => [h.kind, h.head, h.lines, h.alarm, h.href])).toEqual([
      ['mail', 'Mail to chef@example.com', ['Visit booked. Not sent: failed.'], true, `/week/${next.id}`],
      ['mail', 'Mail to chef@example.com', ['Visit booked. Sent.'], false, `/week/${next.id}`],
      ['job', `Job ${job.number}`, [`${unit.name}: Door hangs`, 'Closed: New hinge'], false, `/jobs/${job.id}`],
      ['job', 'Call', [`${unit.name}: Drips`, 'Open.'], false, expect.stringMatching(/^\/jobs\/[0-9a-f-]{36}$/)],
      ['job', 'Call from Ilse', [`${unit.name}: Too warm`, 'Open.'], false, expect.stringMatching(/^\/jobs\//)],
      ['visit', 'Visit, Tova Lind', ['Found nothing out of order.'], false, `/visits/${looked.id}`],
      ['visit', 'Visit cancelled, Tova Lind', ['Closed for a wedding'], false, `/week/${cancelled.id}`],
    ]);
    const short = await line(2);
    expect(short.happened.map((h) => h.kind)).toEqual(['mail', 'mail']);
  });
});
