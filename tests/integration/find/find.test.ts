import { beforeAll, describe, expect, it } from 'vitest';
import { findRecords } from '@/lib/features/find/reads/find';
import { nearestKitchens } from '@/lib/features/find/reads/nearest';
import { find } from '@/lib/features/find/verbs/find-records';
import { kitchenTimeline } from '@/lib/features/kitchens/reads/timeline';
import { findingRow, visitRow } from '../../../prisma/seed/rows';
import { useDatabase } from '../../support/database';
import { haveOneUnit } from '../../support/factories';

const database = useDatabase();
let made: Awaited<ReturnType<typeof haveOneUnit>>;

beforeAll(async () => {
  made = await haveOneUnit(database.db, {
    kitchen: { name: 'Quai Désirée', address: '14 Heron Wharf', contactName: 'Ansel Quist', contactPhone: '(555) 014-2233' },
    unit: { name: 'Fry freezer', serial: 'KS-4471/B', tag: 'Q7-01' },
  });
});

const hrefs = async (q: string) => (await findRecords(database.db, q)).map((h) => h.href);

describe('finding a record from anywhere', () => {
  it('goes by name without accents, street, contact, phone however it is written, tag and serial', async () => {
    const [kitchen, unit] = [`/kitchens/${made.kitchen.id}`, `/units/${made.unit.id}`];
    for (const q of ['quai desiree', 'heron wh', 'quist', '555 014 2233', '5550142233']) expect(await hrefs(q), q).toContain(kitchen);
    for (const q of ['fry fre', 'ks-4471', 'KS4471B', 'q7-01', 'q701']) expect(await hrefs(q), q).toContain(unit);
  });

  it('comes near where a name was heard or spelt wrong, and says that it is only near', async () => {
    const kitchen = `/kitchens/${made.kitchen.id}`;
    const near = async (q: string) => {
      const found = await find(database, q);
      return [found.near, found.hits.map((h) => h.href)];
    };
    for (const q of ['desirree quay', 'the one on hern wharf', 'Quai Desire, heeron']) expect(await near(q), q).toEqual([true, [kitchen]]); // prettier-ignore
    expect(await near('quai desiree')).toEqual([false, [kitchen]]);
    for (const q of ['marlowe', 'the place', '77 12345', 'zz', '%%%']) expect(await near(q), q).toEqual([false, []]);
    const other = await haveOneUnit(database.db, { kitchen: { name: 'Heron Landing', address: '' } });
    // The nearest first, and none that is far behind it.
    expect(await nearestKitchens(database.db, 'herron landin')).toMatchObject([{ id: other.kitchen.id, customer: other.customer.name }]);
    expect((await nearestKitchens(database.db, 'herron')).map((k) => k.id).sort()).toEqual([made.kitchen.id, other.kitchen.id].sort());
    await database.db.kitchen.update({ where: { id: other.kitchen.id }, data: { archivedAt: new Date() } });
    expect((await nearestKitchens(database.db, 'herron')).map((k) => k.id)).toEqual([made.kitchen.id]);
  });

  it('takes what is typed literally, wants three letters, and finds nothing that is out of use', async () => {
    expect(await hrefs('%%%')).toEqual([]);
    expect(await hrefs('fr')).toEqual([]);
    await database.db.unit.update({ where: { id: made.unit.id }, data: { archivedAt: new Date(), archivedWhy: 'Sold' } });
    expect(await hrefs('ks-4471')).toEqual([]);
    await database.db.unit.update({ where: { id: made.unit.id }, data: { archivedAt: null, archivedWhy: '' } });
  });

  it('and its page says when we were last there, what was found, and when we come next', async () => {
    const { db } = database;
    const { kitchen, unit, person } = made;
    const at = new Date('2026-11-24T15:00:00Z');
    const visit = await db.$transaction(async (tx) => {
      const v = await tx.visit.create({ data: visitRow(kitchen.id, person.id, at, 60, { status: 'done', closedAt: at }) });
      await tx.finding.createMany({
        data: [
          findingRow(v.id, unit.id, 'coil', 'matted', at),
          findingRow(v.id, unit.id, 'drain', 'runs', at),
          findingRow(v.id, unit.id, 'ice', 'dry', at),
        ],
      });
      return v;
    });
    const next = await db.visit.create({ data: visitRow(kitchen.id, person.id, new Date('2026-12-03T15:00:00Z'), 60) });
    await db.outboxMessage.create({
      data: { kind: 'visit_booked', toEmail: 'a@b.example', subject: 'Visit booked', text: '', visitId: next.id },
    });
    const task = await db.task.findFirstOrThrow({ where: { kitchenId: kitchen.id } });
    await db.ruleChange.create({
      data: {
        taskId: task.id,
        kind: 'edited',
        fromRule: task.rule,
        toRule: 'FREQ=WEEKLY;INTERVAL=6',
        reason: 'Asked by the chef',
        byUserId: person.id,
        at: new Date('2026-11-26T12:00:00Z'),
      },
    });
    const line = await kitchenTimeline(db, kitchen.id, new Date('2026-11-27T12:00:00Z'), 20);
    expect(line.last).toMatchObject({ id: visit.id, found: ['Fry freezer: coil matted'] });
    expect(line.next).toMatchObject({ id: next.id });
    expect(line.happened.map((h) => h.kind).sort()).toEqual(['mail', 'rule', 'visit']);
    expect(line.happened.find((h) => h.kind === 'rule')).toMatchObject({
      head: `Rule changed by ${person.name}`,
      lines: [expect.stringContaining('→ every 6 weeks'), 'Asked by the chef'],
    });
  });
});
