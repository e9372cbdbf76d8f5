import { describe, expect, it } from 'vitest';
import { pastOfUnits } from '@/lib/features/tablet/reads/past';
import { useDatabase } from '../../support/database';
import { visitRow, visitTaskRow } from '../../support/factories';
import { finding, haveVisit, MORNING, Tablet } from './a-tablet';

const database = useDatabase();

const reading = (unitId: string, phase: 'before' | 'after', airInK: number) => ({
  unitId,
  phase,
  values: { airInK },
  gaugeGrade: null,
  gaugeSpanPa: null,
  entered: {},
  questioned: [],
  replaces: null,
});
const arrival = { arrivedAt: MORNING.toISOString() };
const nobody = { nobodyThere: true, signedBy: '', png: null };

async function begun() {
  const shop = await haveVisit(database.db);
  return { ...shop, tablet: new Tablet(database.db, shop.person), taskIds: shop.tasks.map((t) => t.id) };
}

describe('what a tablet files', () => {
  it('a reading before the cleaning and one after it both stand, and a second one replaces only its like', async () => {
    const { visit, unit, tablet } = await begun();
    const ops = [
      tablet.make(visit.id, 'visit.start', arrival),
      tablet.make(visit.id, 'reading.add', reading(unit.id, 'before', 305)),
      tablet.make(visit.id, 'reading.add', reading(unit.id, 'after', 306)),
      tablet.make(visit.id, 'reading.add', reading(unit.id, 'before', 307)),
    ];
    await tablet.send(ops);
    const standing = await database.db.reading.findMany({ where: { visitId: visit.id, supersededAt: null }, orderBy: { airInK: 'asc' } });
    expect(standing.map((r) => [r.phase, r.airInK])).toEqual([
      ['after', 306],
      ['before', 307],
    ]);
    expect(await database.db.reading.count({ where: { visitId: visit.id } })).toBe(3);
  });

  it('a visit that nobody arrived at cannot be closed', async () => {
    const { visit, unit, tablet, taskIds } = await begun();
    const reply = await tablet.send([
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'runs')),
      ...taskIds.map((taskId) => tablet.make(visit.id, 'task.done', { taskId })),
      tablet.make(visit.id, 'signature.set', nobody),
      tablet.make(visit.id, 'visit.close', { leftAt: '2026-11-25T15:50:00Z', taskIds }),
    ]);
    expect(reply.results.at(-1)).toMatchObject({ outcome: 'rejected', note: expect.stringMatching(/arriv/i) });
    expect((await database.db.visit.findUniqueOrThrow({ where: { id: visit.id } })).status).not.toBe('done');
  });

  it('what was found on a visit that is done is on the tablet at the next one', async () => {
    const { visit, unit, tablet, taskIds } = await begun();
    await tablet.send([
      tablet.make(visit.id, 'visit.start', arrival),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'runs')),
      tablet.make(visit.id, 'reading.add', reading(unit.id, 'before', 305)),
      ...taskIds.map((taskId) => tablet.make(visit.id, 'task.done', { taskId })),
      tablet.make(visit.id, 'signature.set', nobody),
      tablet.make(visit.id, 'visit.close', { leftAt: '2026-11-25T15:50:00Z', taskIds }),
    ]);
    const units = await database.db.unit.findMany({ where: { id: unit.id }, include: { kitchen: true } });
    const [past] = (await pastOfUnits(database.db, units)).get(unit.id)?.past ?? [];
    expect(past).toMatchObject({ visitId: visit.id });
    expect(past?.findings.map((f) => `${f.aspect} ${f.grade}`).toSorted()).toEqual(['coil matted', 'drain runs', 'ice dry']);
    expect(past?.readings.map((r) => r.values.airInK)).toEqual([305]);

    const next = await database.db.visit.create({
      data: visitRow(unit.kitchenId, visit.technicianId, new Date('2026-11-25T18:00:00Z'), 60),
    });
    await database.db.visitTask.createMany({ data: taskIds.map((id) => visitTaskRow(next.id, { id, unitId: unit.id })) });
    const told = (await tablet.refresh()).changed.find((v) => v.id === next.id);
    expect(told?.units.find((u) => u.id === unit.id)?.past).toEqual([past]);
  });
});
