import { describe, expect, it } from 'vitest';
import { writeWeekly } from '@/lib/features/owner/verbs/write-weekly';
import { useDatabase } from '../../support/database';
import { haveOneUnit, visitRow } from '../../support/factories';

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
});
