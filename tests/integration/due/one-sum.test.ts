import { describe, expect, it } from 'vitest';
import { addDays, todayIn } from '@/lib/core/calendar';
import { listCustomers } from '@/lib/features/customers/reads/customers';
import { dueCounts, zonesOnFile } from '@/lib/features/due/reads';
import { foulingKitchens } from '@/lib/features/owner/reads/kitchens';
import { overdueGroups } from '@/lib/features/owner/reads/shop-work';
import { unbookedKitchens } from '@/lib/features/visits/reads/unbooked';
import { customerRow, haveTaskKinds, kitchenRow, personRow, taskRow, unitRow, visitRow, visitTaskRow } from '../../support/factories';
import { useDatabase } from '../../support/database';

describe('how much is overdue', () => {
  const database = useDatabase();
  // Wednesday 4 March 2026, 04:30 UTC: in Honolulu still Tuesday, in Berlin Wednesday.
  const now = new Date('2026-03-04T04:30:00Z');

  it('is one number in parts, whoever asks: the owner’s total, what is on visits, and what the dispatcher has to book', async () => {
    const { db } = database;
    await haveTaskKinds(db);
    await db.shopSettings.create({ data: { id: 1, name: 'Test shop', timeZone: 'Europe/Berlin' } });
    const tova = await db.user.create({ data: personRow({ name: 'Tova Lind' }) });
    const kinds = ['coil_cleaning', 'drain_inspection', 'evaporator_inspection'] as const;
    for (const [k, timeZone] of ['Europe/Berlin', 'Pacific/Honolulu', 'Europe/Berlin', 'Europe/Berlin'].entries()) {
      const customer = await db.customer.create({ data: customerRow({ name: `Customer ${k}` }) });
      const kitchen = await db.kitchen.create({ data: kitchenRow(customer.id, { name: `Kitchen ${k}`, timeZone }) });
      for (const due of ['2026-01-10', '2026-03-02', '2026-03-03', '2026-03-06']) {
        const unit = await db.unit.create({ data: unitRow(kitchen.id, { name: `Unit ${due}` }) });
        const tasks = await db.task.createManyAndReturn({
          data: kinds.map((kindKey) => taskRow(unit, { kindKey, dueOn: new Date(`${due}T00:00:00Z`) })),
        });
        const [first] = tasks;
        if (!first || due === '2026-01-10') continue;
        // The first of each later unit stands on a visit still open; a visit of Kitchen 2 is over and leaves its task to book.
        const over = k === 2 ? { status: 'done' as const } : {};
        const at = new Date(Date.UTC(2026, 2, 5, 8 + k, Number(due.slice(-1)) * 5));
        const visit = await db.visit.create({ data: visitRow(kitchen.id, tova.id, at, 4, over) });
        await db.visitTask.create({
          data: visitTaskRow(visit.id, first, k === 2 ? { open: false, outcome: 'not_done', reason: 'No key' } : {}),
        });
      }
      if (k === 3) await db.kitchen.update({ where: { id: kitchen.id }, data: { archivedAt: now } });
    }
    const zones = await zonesOnFile(db, now);
    const owner = (await dueCounts(db, zones, { booked: true }, 14)).overdue.tasks;
    const dispatcher = (await dueCounts(db, zones, {}, 14)).overdue.tasks;
    const { groups } = await overdueGroups(db, now);
    const sum = (list: { tasks: number }[]) => list.reduce((n, g) => n + g.tasks, 0);
    // Berlin: three days of three tasks, twice; Honolulu: the 3rd is today there. Kitchen 3 is out of use.
    expect([owner, dispatcher]).toEqual([24, 24 - 3]);
    expect(sum(groups)).toBe(owner);
    expect(sum(groups.filter((g) => g.booked))).toBe(owner - dispatcher);
    const fouling = await foulingKitchens(db, now, { take: 50, skip: 0 });
    expect(fouling.reduce((n, k) => n + k.overdue, 0)).toBe(owner);
    const customers = await listCustomers(db, { limit: 50, now });
    expect(customers.reduce((n, c) => n + c.overdue, 0)).toBe(owner);
    // The week's page lists what is to book by its Sunday: the overdue part and this week's.
    const week = (await dueCounts(db, zones, {}, 14)).week.tasks;
    expect(sum((await unbookedKitchens(db, addDays(todayIn('Europe/Berlin', now.getTime()), 5), 50)).kitchens)).toBe(dispatcher + week);
  });
});
