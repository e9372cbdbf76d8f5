import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { touched } from '@/app/(staff)/visits/[id]/_components/untouched';
import { unitsSaid, type Said } from '@/lib/features/visits/reads/units-said';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import { visitReport } from '@/lib/features/visits/reads/visit-report';
import { useDatabase } from '../../support/database';
import { unitRow, visitRow } from '../../support/factories';
import { finding, haveVisit, MORNING, Tablet } from '../tablet/a-tablet';

const database = useDatabase();
const at = MORNING.toISOString();
const reading = {
  phase: 'before' as const,
  values: { airInK: 305 },
  gaugeGrade: null,
  gaugeSpanPa: null,
  entered: {},
  questioned: [],
  replaces: null,
};
const photo = { aspect: null, phase: 'before' as const, bytes: 1000, takenAt: at };

/** One unit for each way of saying something, none of them on the visit's plan. */
async function haveWork() {
  const { db } = database;
  const made = await haveVisit(db);
  const { kitchen, visit, person } = made;
  const tablet = new Tablet(db, person);
  const on = async (name: string) => (await db.unit.create({ data: unitRow(kitchen.id, { name }) })).id;
  await on('Silent');
  await tablet.send([
    tablet.make(visit.id, 'finding.set', finding(await on('Finding'), 'coil', 'bare')),
    tablet.make(visit.id, 'reading.add', { unitId: await on('Reading'), ...reading }),
    tablet.make(visit.id, 'unit.outcome', { unitId: await on('Outcome'), outcome: 'seen', reason: '' }),
    tablet.make(visit.id, 'photo.attach', { unitId: await on('Photo'), sha256: 'a'.repeat(64), ...photo }),
    tablet.make(visit.id, 'photo.attach', { unitId: null, sha256: 'b'.repeat(64), ...photo }),
    tablet.make(visit.id, 'event.add', { unitId: await on('Event'), kind: 'fan_replaced', at, note: '', cause: null }),
    tablet.make(visit.id, 'follow_up.add', { unitId: await on('Follow-up'), what: 'New gasket', urgency: 'next', note: '' }),
    tablet.make(visit.id, 'food_warning.add', { unitId: await on('Warning'), boxK: 285, toldTo: 'Chef', toldAt: at, note: '' }),
    tablet.make(visit.id, 'part.use', { unitId: await on('Part'), what: 'Belt', quantity: 1 }),
    tablet.make(visit.id, 'part.use', { unitId: null, what: 'Rags', quantity: 1 }),
  ]);
  return made;
}
const SPOKEN = ['Event', 'Finding', 'Follow-up', 'Outcome', 'Part', 'Photo', 'Reading', 'Warning'];

it('every way of saying something about a unit counts, and a planned task does', () => {
  const none: Said = { tasks: [], findings: [], readings: [], outcomes: [], photos: [], unitEvents: [], followUps: [], foodWarnings: [], parts: [] }; // prettier-ignore
  expect([...unitsSaid(none)]).toEqual([]);
  for (const way of Object.keys(none)) {
    const unitId = randomUUID();
    expect([...unitsSaid({ ...none, [way]: [{ unitId }, { unitId }, { unitId: null }] })]).toEqual([unitId]);
  }
});

it('the office’s page shows each unit that the visit says something about', async () => {
  const { db } = database;
  const { visit, unit } = await haveWork();
  const report = await visitReport(db, visit.id);
  if (!report) throw new Error('no visit');
  expect(report.units.map((u) => u.name).sort()).toEqual([...SPOKEN, unit.name].sort());
  expect(report.units.filter((u) => !touched(u)).map((u) => u.name)).toEqual([unit.name]);
  const named = (name: string) => report.units.find((u) => u.name === name);
  expect(named('Part')?.parts).toMatchObject([{ what: 'Belt' }]);
  expect(named('Warning')?.foodWarnings).toMatchObject([{ toldTo: 'Chef' }]);
  expect(report.parts.map((p) => p.unitId)).toEqual([named('Part')?.id, null]);
  expect(report.photos).toHaveLength(1);
});

it('a unit taken out of use goes with the visit that speaks of it, and with no other of its kitchen', async () => {
  const { db } = database;
  const { visit, unit, kitchen, person } = await haveWork();
  const later = await db.visit.create({ data: visitRow(kitchen.id, person.id, new Date(MORNING.getTime() + 86_400_000), 60) });
  await db.unit.updateMany({ where: { kitchenId: kitchen.id }, data: { archivedAt: MORNING } });
  const fresh = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Fresh' }) });
  const [first, second] = await visitsOnFile(db, [visit.id, later.id], null);
  expect(first?.units.map((u) => u.name).sort()).toEqual([...SPOKEN, unit.name, 'Fresh'].sort());
  expect(second?.units.map((u) => u.id)).toEqual([fresh.id]);
});
