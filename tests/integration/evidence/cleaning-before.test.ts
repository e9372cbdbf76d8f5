import { expect, it } from 'vitest';
import { unitFiles } from '@/lib/features/evidence/reads/findings-history';
import { useDatabase } from '../../support/database';
import { finding, haveVisit, MORNING, Tablet } from '../tablet/a-tablet';

const database = useDatabase();

it('a visit closed on a tablet does not forget the cleaning that the unit was put on file with', async () => {
  const { db } = database;
  const { visit, unit, person, coil, tasks } = await haveVisit(db);
  await db.task.update({ where: { id: coil.id }, data: { lastDoneOn: new Date('2026-09-14T00:00:00Z') } });
  const tablet = new Tablet(db, person);
  const reply = await tablet.send([
    tablet.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'packed')),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare', { phase: 'left' })),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'runs')),
    ...tasks.map((t) => tablet.make(visit.id, 'task.done', { taskId: t.id })),
    tablet.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
    tablet.make(visit.id, 'visit.close', { leftAt: MORNING.toISOString(), taskIds: tasks.map((t) => t.id) }),
  ]);
  expect(reply.results.every((r) => r.outcome === 'applied')).toBe(true);
  expect((await unitFiles(db, { unitIds: [unit.id] }))[0]?.cleanings).toEqual(['2026-09-14', '2026-11-25']);
});
