import { describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { learnSiteTimes, travelMinutes } from '@/lib/core/planning';
import { learnedMinutes } from '@/lib/features/planning/reads/learned-minutes';
import { weekProblem } from '@/lib/features/planning/reads/week-problem';
import { useDatabase } from '../../support/database';
import { haveOneUnit, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T15:00:00Z');
const monday = localDate('2026-11-30');
const MINUTE = 60_000;
const STANDARD = 18 + 4 + 5; // coil, drain, evaporator

let daysAgo = 0;

/** Finished visits of a kitchen, each so many minutes from arriving to leaving. */
async function finished(made: Awaited<ReturnType<typeof haveOneUnit>>, minutes: number[], over: Parameters<typeof visitRow>[4] = {}) {
  for (const m of minutes) {
    const arrivedAt = new Date(now.getTime() - ++daysAgo * 86_400_000);
    const visit = await database.db.visit.create({
      data: visitRow(made.kitchen.id, made.person.id, arrivedAt, 60, {
        arrivedAt,
        leftAt: new Date(arrivedAt.getTime() + m * MINUTE),
        ...over,
      }) as never,
    });
    await database.db.visitTask.createMany({ data: made.tasks.map((t) => visitTaskRow(visit.id, t, { outcome: 'done', open: false })) });
    for (const aspect of ['ice', 'drain'] as const)
      await database.db.finding.create({
        data: { visitId: visit.id, unitId: made.unit.id, aspect, notLookedWhy: 'Panel riveted shut', at: arrivedAt },
      });
    for (const [phase, grade] of [
      ['found', 'furred'],
      ['left', 'bare'],
    ] as const)
      await database.db.finding.create({ data: { visitId: visit.id, unitId: made.unit.id, aspect: 'coil', phase, grade, at: arrivedAt } });
    await database.db.visit.update({ where: { id: visit.id }, data: { status: 'done' } });
  }
}

describe('the week’s problem', () => {
  it('feeds the planner minutes learned from finished visits, kitchen by kitchen', async () => {
    const slow = await haveOneUnit(database.db, { kitchen: { name: 'Slow' } });
    const quick = await haveOneUnit(database.db, { kitchen: { name: 'Quick' } });
    const fresh = await haveOneUnit(database.db, { kitchen: { name: 'Fresh' } });
    const [long, short] = [
      [56, 54, 60, 58, 52, 55, 57, 59, 61],
      [36, 37, 38, 35, 36, 39],
    ];
    await finished(slow, long);
    await finished(quick, short);
    // Neither teaches: an emergency took its time for other reasons, and nobody was there.
    await finished(quick, [140], { emergency: true });
    await finished(quick, [12], { nobodyThere: true });

    const { problem } = await weekProblem(database.db, monday, now);
    const at = (id: string) => problem.kitchens.find((k) => k.id === id)!;
    const expected = learnSiteTimes([
      ...long.map((minutes) => ({ kitchenId: slow.kitchen.id, taskMinutes: STANDARD, minutes })),
      ...short.map((minutes) => ({ kitchenId: quick.kitchen.id, taskMinutes: STANDARD, minutes })),
    ]);
    for (const made of [slow, quick]) {
      expect(at(made.kitchen.id).durationFactor).toBeCloseTo(expected.kitchens.get(made.kitchen.id)!.durationFactor, 6);
      expect(at(made.kitchen.id).accessMinutes).toBeCloseTo(expected.kitchens.get(made.kitchen.id)!.accessMinutes, 6);
    }
    // 56.9 minutes on average for 27 by the book plus access; drawn a little towards the shop.
    const onSite = at(slow.kitchen.id).accessMinutes! + at(slow.kitchen.id).durationFactor! * STANDARD;
    expect(onSite).toBeGreaterThan(50);
    expect(onSite).toBeLessThan(58);
    expect(at(quick.kitchen.id).durationFactor!).toBeLessThan(at(slow.kitchen.id).durationFactor!);
    expect(at(fresh.kitchen.id).durationFactor).toBeCloseTo(expected.shop.durationFactor, 6);
    expect((await learnedMinutes(database.db, now)).kitchens.get(slow.kitchen.id)!.learned.visits).toBe(9);
  });

  it('counts in the low side that rides along with a coil, whenever it is due, as the booking will', async () => {
    const { db } = database;
    const far = [{ kindKey: 'drain_inspection', dueOn: new Date('2027-06-01') }, { kindKey: 'evaporator_inspection', dueOn: new Date('2027-06-01') }]; // prettier-ignore
    const due = { kindKey: 'coil_cleaning', dueOn: new Date('2026-11-20') };
    const made = await haveOneUnit(db, { kitchen: { name: 'Rides' }, tasks: [due, ...far] });
    const drainsOnly = await haveOneUnit(db, { tasks: [{ ...due, kindKey: 'drain_inspection' }, { ...far[1]! }] });
    const taken = await haveOneUnit(db, { tasks: [due, ...far] });
    const other = await db.visit.create({ data: visitRow(taken.kitchen.id, taken.person.id, new Date('2026-12-15T15:00:00Z'), 60) });
    await db.visitTask.create({ data: visitTaskRow(other.id, taken.tasks[1]!) });
    const { problem } = await weekProblem(db, monday, now);
    const of = ({ kitchen }: typeof made) => problem.tasks.filter((t) => t.kitchenId === kitchen.id).map((t) => t.id).sort(); // prettier-ignore
    expect(of(made)).toEqual(made.tasks.map((t) => t.id).sort());
    // Nothing rides with a look at a drain, and what stands on another visit stays there.
    expect(of(drainsOnly)).toEqual([drainsOnly.tasks[0]!.id]);
    expect(of(taken)).toEqual([taken.tasks[0]!.id, taken.tasks[2]!.id].sort());
  });

  it('takes imported minutes where a pair has them and coordinates for the rest, home and shop included', async () => {
    await database.db.shopSettings.update({ where: { id: 1 }, data: { lat: 39.7, lng: -105 } });
    const [a, b, c] = await Promise.all([0, 1, 2].map((i) => haveOneUnit(database.db, { kitchen: { lat: 39.74 + i / 50, lng: -104.98 } })));
    const nowhere = await haveOneUnit(database.db, { kitchen: { lat: null, lng: null } });
    await database.db.travelTime.createMany({
      data: [
        { fromKitchenId: a!.kitchen.id, toKitchenId: b!.kitchen.id, minutes: 47 },
        { fromKitchenId: a!.kitchen.id, toKitchenId: nowhere.kitchen.id, minutes: 9 },
      ],
    });
    const { problem } = await weekProblem(database.db, monday, now);
    const place = (made: typeof a) => problem.kitchens.find((k) => k.id === made!.kitchen.id)!.place!;
    const byRoad = (from: typeof a, to: typeof a) => travelMinutes(place(from), place(to), problem.travel);
    expect(byRoad(a, b)).toBe(47);
    // The way back was not imported: 2.22 km × 1.3 at 35 km/h is 4.96 minutes.
    expect(byRoad(b, a)).toBe(5);
    expect(byRoad(b, c)).toBe(5);
    const home = problem.technicians.flatMap((t) => t.shifts)[0]!.startPlace;
    expect(travelMinutes(home, place(a), problem.travel)).toBe(11); // 4.76 km: 10.6 minutes
    expect(travelMinutes(place(a), home, problem.travel)).toBe(11);
    // Minutes between kitchens do not tell how to get there from home: the way there is a guess, made of the ways that are known.
    const lost = problem.kitchens.find((k) => k.id === nowhere.kitchen.id)!.place!;
    expect(lost.unknown).toMatchObject({ id: nowhere.kitchen.id });
    expect(travelMinutes(home, lost, problem.travel)).toBe(lost.unknown!.minutes);
  });
});
