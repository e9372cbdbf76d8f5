import { createElement, type ReactElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { beforeAll, describe, expect, it } from 'vitest';
import { JobLines } from '@/app/(staff)/jobs/_components/job-lines';
import { GoBack } from '@/app/(staff)/due/_components/go-back';
import { UnitCell } from '@/app/(staff)/refrigerants/book/_components/unit-cell';
import { Decisions } from '@/app/(staff)/owner/_components/decisions';
import { LookAgain } from '@/app/(staff)/owner/_components/look-again';
import { localDate } from '@/lib/core/calendar';
import { namesOf } from '@/lib/features/audit/reads/records';
import { toLookAtAgain } from '@/lib/features/choices/reads/unit-facts';
import { toGoBackTo, zonesOnFile } from '@/lib/features/due/reads';
import { findRecords } from '@/lib/features/find/reads/find';
import { closedLately, openJobLines } from '@/lib/features/jobs/reads/lists';
import { kitchenPoints } from '@/lib/features/kitchens/reads/positions';
import { openWork } from '@/lib/features/owner/reads/decisions';
import { warrantiesEnding } from '@/lib/features/owner/reads/shop-money';
import { unitInKitchen } from '@/lib/features/equipment/reads/units';
import { weekProblem } from '@/lib/features/planning/reads/week-problem';
import { toProposal } from '@/lib/features/planning/verbs/to-proposal';
import { overlapError } from '@/lib/features/visits/verbs/slot';
import { useDatabase } from '../../support/database';
import { customerRow, haveTaskKinds, jobRow, kitchenRow, personRow, taskRow, unitRow, visitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const day = (d: string) => new Date(`${d}T00:00:00Z`);
const NAMES = ['Ash House, Main kitchen', 'Birch House, Main kitchen'];
/** Every text as it would be read, tags apart. */
const read = (page: ReactElement) => renderToStaticMarkup(page).replaceAll(/<[^>]*>/g, '');
const told = (text: string) => NAMES.filter((n) => text.includes(n));

let units: { id: string; kitchenId: string }[] = [];
let technicianId = '';
beforeAll(async () => {
  const { db } = database;
  await haveTaskKinds(db);
  technicianId = (await db.user.create({ data: personRow() })).id;
  for (const name of ['Ash House', 'Birch House']) {
    const customer = await db.customer.create({ data: customerRow({ name }) });
    const kitchen = await db.kitchen.create({ data: kitchenRow(customer.id, { name: 'Main kitchen', lat: 39, lng: -105 }) });
    const unit = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Milk undercounter' }) });
    units = [...units, unit];
    await db.job.create({ data: jobRow(unit, { what: 'Go back: drain did not run', dueOn: day('2026-03-02') }) });
  }
});

describe('two customers’ kitchens of the same name are told apart', () => {
  it('on the lists of jobs', async () => {
    expect(told(read(createElement(JobLines, { lines: await openJobLines(database.db) })))).toEqual(NAMES);
  });

  it('among jobs that were closed', async () => {
    const { db } = database;
    for (const unit of units) await db.job.create({ data: { ...jobRow(unit), state: 'done', closedAt: now, closedNote: 'Not wanted' } });
    const closed = await closedLately(db, day('2026-03-01'));
    expect(closed.map((j) => j.kitchen.customer.name).sort()).toEqual(['Ash House', 'Birch House']);
  });

  it('on the list to go back to, for who hears the buttons too', async () => {
    const { db } = database;
    const lines = await toGoBackTo(db, await zonesOnFile(db, now), 'overdue', {}, { now, limit: 9 });
    const text = read(createElement(GoBack, { lines, most: 9, all: null }));
    expect(told(text)).toEqual(NAMES);
    for (const name of NAMES) expect(text).toContain(`a visit to Milk undercounter, ${name}`);
  });

  it('among what the owner decides', async () => {
    const { db } = database;
    const work = await openWork(db, day('2026-03-04'));
    const matter = { unitId: 'u', unit: 'Ice machine', kitchen: 'Bar', customer: 'Cedar House', since: now, quote: null };
    const page = createElement(Decisions, {
      changes: [], unread: 0, coils: [], fans: [matter], drains: [], work, today: '2026-03-04', mayDecide: false, maySettle: false,
    }); // prettier-ignore
    expect(told(read(page))).toEqual(NAMES);
    expect(read(page)).toContain('Ice machine, Cedar House, Bar');
  });

  it('among decisions to look at again, and warranties that end', async () => {
    const { db } = database;
    for (const unit of units) await db.warranty.create({ data: { unitId: unit.id, what: 'Compressor', until: day('2026-03-20') } });
    const { rows } = await warrantiesEnding(db, day('2026-03-04'), day('2026-04-04'));
    expect(rows.map((r) => r.unit.kitchen.customer.name).sort()).toEqual(['Ash House', 'Birch House']);
    expect(await toLookAtAgain(db, localDate('2026-03-04'))).toEqual([]);
    const list = ['Ash House', 'Birch House'].map((name, i) => ({
      id: `c${i}`, way: 'repair' as const, lookAgainOn: '2026-03-01', unit: { id: 'u', name: 'Milk undercounter', kitchen: { name: 'Main kitchen', customer: { name } } },
    })); // prettier-ignore
    expect(told(read(createElement(LookAgain, { list })))).toEqual(NAMES);
  });

  it('on the map, in the box that finds, and in the list of who changed what', async () => {
    const { db } = database;
    expect((await kitchenPoints(db, 9)).map((k) => k.name).sort()).toEqual(NAMES);
    const found = (await findRecords(db, 'milk undercounter')).map((h) => h.about);
    expect(told(found.join('; '))).toEqual(NAMES);
    const names = namesOf(new Map([['Kitchen', units.map((u) => u.kitchenId)]]));
    const rows = names ? await db.$queryRaw<Record<string, string>[]>(names) : [];
    expect(told(JSON.stringify(rows))).toEqual(NAMES);
  });

  it('in a plan of the week: what it weighs, what it leaves out', async () => {
    const { db } = database;
    await db.shopSettings.create({ data: { id: 1, name: 'Test shop', timeZone: 'America/Denver' } });
    await db.task.createMany({ data: units.map((u) => taskRow(u, { kindKey: 'coil_cleaning', dueOn: day('2026-03-01') })) });
    const { problem, names, input } = await weekProblem(db, localDate('2026-03-09'), now);
    expect(problem.kitchens.map((k) => k.name).sort()).toEqual(NAMES);
    expect((await input()).kitchens.map((k) => k.name).sort()).toEqual(NAMES);
    const unplaced = problem.tasks.map((t) => ({ taskId: t.id, reason: { code: 'full' as const, message: 'Everyone is booked.' } }));
    const costs = { driving: 0, drivingMinutes: 0, overtime: 0, overtimeMinutes: 0, lateness: 0, latenessMinutes: 0 };
    const found = { visits: [], cost: { total: 0, visits: 0, early: 0, overdue: 0, left: 0, ...costs }, unplaced };
    const due = { tasks: 2, kitchens: 2, searched: 2 };
    const { unplaced: left } = toProposal(found, names, { findings: [], due, problem }, 1, 0);
    expect(left.map((l) => l.kitchen).sort()).toEqual(NAMES);
  });

  it('in the refrigerant book, and at the pressure of a unit', async () => {
    const { db } = database;
    const found = await Promise.all(units.map((u) => unitInKitchen(db, u.id)));
    const cells = found.map((u) => (u ? read(createElement(UnitCell, { unit: u })) : ''));
    expect(told(cells.join('; '))).toEqual(NAMES);
  });

  it('where somebody is said to be elsewhere at the time', async () => {
    const { db } = database;
    const [startsAt, endsAt] = [new Date('2026-03-05T16:00:00Z'), new Date('2026-03-05T17:00:00Z')];
    const [unit] = units;
    await db.visit.create({ data: visitRow(unit?.kitchenId ?? '', technicianId, startsAt, 60) });
    expect((await overlapError(db, technicianId, startsAt, endsAt)).message).toContain(`is at ${NAMES[0]} from`);
  });

  it('in the list of who changed what, of units, their tasks and what was decided of them', async () => {
    const { db } = database;
    const row = { byUserId: technicianId, way: 'repair', reason: 'A sound box', figures: {}, lookAgainOn: day('2027-03-01') } as const;
    const tasks = await db.task.createManyAndReturn({ data: units.map((u) => taskRow(u, { kindKey: 'drain_inspection' })) });
    const choices = await db.unitChoice.createManyAndReturn({ data: units.map((u) => ({ ...row, unitId: u.id })) });
    const ids = (rows: readonly { id: string }[]) => rows.map((r) => r.id);
    const names = namesOf(new Map([['Unit', ids(units)], ['Task', ids(tasks)], ['UnitChoice', ids(choices)]])); // prettier-ignore
    const rows = await db.$queryRaw<
      { kind: string; name: string; on: string }[]
    >`SELECT * FROM (${names ?? expect.fail('no names')}) n (kind, id, name, "on")`;
    const of = (kind: string) => rows.filter((r) => r.kind === kind);
    const inFull = NAMES.map((n) => `Milk undercounter, ${n}`);
    expect(of('Unit').map((r) => r.name).sort()).toEqual(inFull); // prettier-ignore
    expect(of('UnitChoice').map((r) => r.name).sort()).toEqual(inFull); // prettier-ignore
    expect(of('Task').map((r) => r.name.replace(/^[^,]+, /, '')).sort()).toEqual(inFull); // prettier-ignore
    expect(rows.map((r) => r.on).sort()).toEqual([...ids(units), ...ids(units), ...ids(units)].sort());
  });
});
