import { describe, expect, it } from 'vitest';
import { writeWeekly } from '@/lib/features/owner/verbs/write-weekly';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, jobRow, personRow, unitRow, visitRow } from '../../support/factories';

const database = useDatabase();
const at = (now: string) => ({ db: database.db, now: new Date(now), baseUrl: 'http://shop.example' });
// 2026-06-15 is a Monday; Denver is six hours behind.
const MORNING = '2026-06-15T13:30:00Z';

describe('the letter of Monday', () => {
  it('goes to each active owner once, in the morning of Monday, and not where it is turned off', async () => {
    const { db } = database;
    const { kitchen, person } = await haveOneUnit(db, {
      person: { role: 'owner', name: 'Ida' },
      tasks: [{ kindKey: 'coil_cleaning', dueOn: new Date('2026-06-01T00:00:00Z') }],
    });
    await db.visit.create({
      data: visitRow(kitchen.id, person.id, new Date('2026-06-10T15:00:00Z'), 60, {
        status: 'done',
        closedAt: new Date('2026-06-10T16:00:00Z'),
      }),
    });
    expect(await writeWeekly(at('2026-06-15T12:00:00Z'))).toBe(0);
    expect(await writeWeekly(at('2026-06-16T13:30:00Z'))).toBe(0);
    const [a, b] = await Promise.all([writeWeekly(at(MORNING)), writeWeekly(at(MORNING))]);
    expect([a, b].sort()).toEqual([0, 1]);
    expect(await writeWeekly(at('2026-06-15T20:00:00Z'))).toBe(0);
    const letters = await db.outboxMessage.findMany({ where: { kind: 'weekly_owner' } });
    expect(letters).toHaveLength(1);
    expect(letters[0]?.text).toContain('Last week: 1 of 1 visit done');
    expect(letters[0]?.text).toContain('Overdue: 1 task, 1 not booked yet, 0 more than 14 days over.');
    expect(letters[0]?.text).toContain('http://shop.example/owner/shop');
    // One screen.
    expect(letters[0]?.text.split('\n').length).toBeLessThan(25);

    await db.shopSettings.update({ where: { id: 1 }, data: { weeklyLetter: false } });
    expect(await writeWeekly(at('2026-06-22T13:30:00Z'))).toBe(0);
    await db.shopSettings.update({ where: { id: 1 }, data: { weeklyLetter: true } });
    expect(await writeWeekly(at('2026-06-22T13:30:00Z'))).toBe(1);
  });

  it('tells of the shop’s own week what was done and who rang, what waits, and where not to trust what was expected', async () => {
    const { db } = database;
    await db.task.updateMany({ data: { active: false } });
    await db.user.createMany({
      data: [
        personRow({ role: 'owner', name: 'Otto', email: 'otto@shop.example' }),
        personRow({ role: 'owner', name: 'Left', active: false }),
        personRow({ role: 'dispatcher', name: 'Desk' }),
      ],
    });
    const { kitchen, unit, person, tasks } = await haveOneUnit(db, { kitchen: { name: 'Oak' } });
    const done = (at: string, minutes: number) => {
      const arrivedAt = new Date(at);
      const leftAt = new Date(arrivedAt.getTime() + minutes * 60_000);
      return visitRow(kitchen.id, person.id, arrivedAt, 60, { status: 'done', closedAt: leftAt, arrivedAt, leftAt });
    };
    // The week begins on Monday the 3rd of August at midnight in Denver, six in the morning UTC.
    await db.visit.createMany({
      data: [
        done('2026-08-03T05:30:00Z', 20),
        done('2026-08-03T15:00:00Z', 80),
        done('2026-08-10T05:00:00Z', 40),
        visitRow(kitchen.id, person.id, new Date('2026-08-06T15:00:00Z'), 60),
        visitRow(kitchen.id, person.id, new Date('2026-08-12T15:00:00Z'), 60),
      ],
    });
    for (const createdAt of ['2026-08-03T05:59:00Z', '2026-08-03T06:00:00Z', '2026-08-10T05:59:00Z', '2026-08-10T06:00:00Z'])
      await db.job.create({ data: jobRow(unit, { source: 'call', createdAt: new Date(createdAt) }) });
    const job = await db.job.create({ data: jobRow(unit, { createdAt: new Date('2026-08-05T15:00:00Z') }) });
    await db.quote.create({
      data: { jobId: job.id, version: 1, lines: { v: 1, lines: [] }, netCents: 20_000, taxCents: 1_600, totalCents: 21_600, currency: 'USD', validUntil: new Date('2026-09-01'), reason: '', sentAt: new Date('2026-08-05T16:00:00Z') },
    }); // prettier-ignore
    // One unit with a dead fan, a coil past saving and a drain that stops again and again: it fails once.
    for (const [i, day] of ['2026-05-04', '2026-06-01', '2026-07-06'].entries()) {
      const at = new Date(`${day}T18:00:00Z`);
      const visit = await db.visit.create({ data: visitRow(kitchen.id, person.id, at, 60, { status: 'started' }) });
      await db.finding.createMany({
        data: [
          findingRow(visit.id, unit.id, 'coil', 'packed', at, { phase: 'left' }),
          findingRow(visit.id, unit.id, 'drain', 'blocked', at),
          ...(i === 2 ? [findingRow(visit.id, unit.id, 'condenser_fan', 'failed', at)] : []),
        ],
      });
    }
    await db.task.updateMany({
      where: { unitId: unit.id },
      data: { active: true, dueOn: new Date('2026-09-01'), rule: 'FREQ=WEEKLY;INTERVAL=6' },
    });
    const change = (i: number, from: number) => ({
      taskId: tasks[i]?.id ?? expect.fail(), at: new Date('2026-08-04T12:00:00Z'), kind: 'evidence' as const, reason: 'Test.',
      fromRule: `FREQ=WEEKLY;INTERVAL=${from}`, toRule: 'FREQ=WEEKLY;INTERVAL=6',
    }); // prettier-ignore
    await db.ruleChange.createMany({ data: [change(0, 12), change(0, 8), change(0, 7), change(1, 8)] });

    const now = '2026-08-10T13:00:00Z';
    expect(await writeWeekly(at(now))).toBe(2);
    const letters = await db.outboxMessage.findMany({
      where: { kind: 'weekly_owner', createdAt: new Date(now) },
      orderBy: { text: 'asc' },
    });
    expect(letters.map((l) => l.text.split('\n')[0])).toEqual(['Ida,', 'Otto,']);
    expect(letters[1]).toMatchObject({ toEmail: 'otto@shop.example', subject: 'Test shop: the week of Mon 10 Aug', status: 'queued' });
    const text = letters[1]?.text ?? '';
    expect(text).toContain('Last week: 2 of 3 visits done, 2 h in kitchens. Kitchens rang 2 times.');
    expect(text).toContain('This week: 1 visit booked.');
    expect(text).toContain('Nothing is overdue.');
    expect(text).toContain('To decide: 1 failing unit; 1 change of rules to look at one by one; 3 usual changes in 2 groups.');
    expect(text).toContain('In quotes that wait: $216.00 in 1 quote.');
    expect(text).not.toContain('Distrust');

    // Twenty-five looks of the half year before: promised four in five, came one in five, and nobody expected them matted.
    const more = await db.unit.createManyAndReturn({
      data: Array.from({ length: 25 }, (_, i) => unitRow(kitchen.id, { name: `More ${i}` })),
    });
    const visit = await db.visit.findFirstOrThrow({ where: { kitchenId: kitchen.id, status: 'done' } });
    const foresee = (on: string) =>
      db.foresight.createMany({
        data: more.map(({ id }, i) => ({
          visitId: visit.id, unitId: id, on: new Date(on), evidence: 3, modelVersion: 'test', chances: [0.4, 0.3, 0.2, 0.05, 0.05], likely: [0, 1], likelyChance: 0.8,
          lnK: 0, lnKSd: 1, mattedChance: 0.1, found: i < 5 ? ('bare' as const) : ('matted' as const),
        })),
      }); // prettier-ignore
    await foresee('2026-01-30');
    const next = async (monday: string) => {
      expect(await writeWeekly(at(`${monday}T13:30:00Z`))).toBe(2);
      return (await db.outboxMessage.findFirstOrThrow({ where: { createdAt: new Date(`${monday}T13:30:00Z`) } })).text;
    };
    expect(await next('2026-08-17')).not.toContain('Distrust');
    await db.foresight.deleteMany();
    await foresee('2026-07-01');
    const warned = await next('2026-08-24');
    expect(warned).toContain('Distrust: grades were among the likely ones less often than promised in the last half year.');
    expect(warned).toContain('Distrust long intervals: in the last half year more coils had matted than was expected.');
    expect(warned).toContain('Last week: no visit was planned.');
  });
});
