import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { restoreVisit } from '@/lib/features/visits/verbs/restore-visit';
import { useDatabase } from '../../support/database';
import { ANY_TIME, haveOneUnit, personRow, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
// 08:00 on a Monday in Denver; the visit is on the Tuesday, 09:00.
const now = new Date('2026-11-30T15:00:00Z');
const tuesday = new Date('2026-12-01T16:00:00Z');
const later = new Date(now.getTime() + 60_000);

let made: Awaited<ReturnType<typeof haveOneUnit>>;
let deskId: string;
let visitId: string;
const ctx = (at = now) => ({ db: database.db, actor: { userId: deskId }, now: at, baseUrl: 'http://localhost:3000' });
const restore = (version = 2, at = later) => restoreVisit(ctx(at), { visitId, version });
const everything = async () => ({
  visit: await database.db.visit.findUniqueOrThrow({ where: { id: visitId }, include: { tasks: true, events: true } }),
  letters: await database.db.outboxMessage.count({ where: { visitId } }),
});

beforeAll(async () => {
  made = await haveOneUnit(database.db, { kitchen: { contactEmail: 'chef@example.com' }, person: { name: 'Tova', shifts: ANY_TIME } });
  deskId = (await database.db.user.create({ data: personRow({ name: 'Idris', role: 'dispatcher' }) })).id;
});
beforeEach(async () => {
  await database.db.visit.deleteMany();
  ({ id: visitId } = await database.db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, tuesday, 60) }));
  await database.db.visitTask.createMany({ data: made.tasks.map((t) => visitTaskRow(visitId, t)) });
  await cancelVisit(ctx(), { visitId, version: 1, reason: 'A slip of the finger' });
});

describe('a cancelled visit', () => {
  it('is not booked again where the kitchen is out of use by now, and nobody is written to', async () => {
    await database.db.kitchen.update({ where: { id: made.kitchen.id }, data: { archivedAt: now } });
    const before = await everything();
    await expect(restore()).rejects.toMatchObject({ code: 'conflict', message: 'The kitchen is out of use by now.' });
    expect(await everything()).toEqual(before);
    await database.db.kitchen.update({ where: { id: made.kitchen.id }, data: { archivedAt: null } });
    expect(await restore()).toBe(0);
  });

  it('is not booked again for somebody who does no visits any more, and the office reads who', async () => {
    await database.db.user.update({ where: { id: made.person.id }, data: { active: false } });
    const before = await everything();
    await expect(restore()).rejects.toThrow('Tova no longer does visits. Book its tasks anew.');
    expect(await everything()).toEqual(before);
    await database.db.user.update({ where: { id: made.person.id }, data: { active: true } });
  });

  it('is not booked again once work was written on it, nor after its time, nor while it stands', async () => {
    await database.db.visit.update({ where: { id: visitId }, data: { arrivedAt: now } });
    await expect(restore()).rejects.toThrow('Work was written on it before it was cancelled.');
    await database.db.visit.update({ where: { id: visitId }, data: { arrivedAt: null } });
    await expect(restore(2, new Date(tuesday.getTime() + 60_000))).rejects.toThrow(
      'Tuesday 1 December, 09:00, is past: book its tasks anew.',
    );
    await restore();
    await expect(restore(3)).rejects.toThrow('That visit is not cancelled any more.');
    await expect(restoreVisit(ctx(), { visitId: made.kitchen.id, version: 1 })).rejects.toMatchObject({ code: 'not_found' });
  });

  it('is not booked again over another visit of the technician: the office reads where he is, and until when', async () => {
    const other = visitRow(made.kitchen.id, made.person.id, new Date(tuesday.getTime() + 1_800_000), 60);
    await database.db.visit.create({ data: other });
    const before = await everything();
    await expect(restore()).rejects.toMatchObject({
      code: 'overlap',
      message: `Tova is at ${made.customer.name}, ${made.kitchen.name} from 09:30 to 10:30. Book its tasks anew for another time.`,
    });
    expect(await everything()).toEqual(before);
  });

  it('is not booked again by somebody who has not seen the last change, nor with nothing left to do', async () => {
    await expect(restore(1)).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Idris changed this visit meanwhile: cancelled (A slip of the finger)'),
    });
    await database.db.task.updateMany({ where: { kitchenId: made.kitchen.id }, data: { active: false } });
    await expect(restore()).rejects.toThrow('All of its tasks stand on other visits by now.');
    await database.db.task.updateMany({ where: { kitchenId: made.kitchen.id }, data: { active: true } });
    expect(await everything()).toMatchObject({ visit: { status: 'cancelled', version: 2 } });
  });

  it('stands again with its tasks, unanswered by the kitchen; its history says by whom, and the kitchen is told once more', async () => {
    await database.db.visit.update({ where: { id: visitId }, data: { customerReply: 'confirmed' } });
    await restore();
    const { visit } = await everything();
    expect(visit).toMatchObject({ status: 'booked', cancelReason: '', customerReply: null, version: 3, sequence: 2, startsAt: tuesday });
    expect(visit.tasks.map((t) => t.open)).toEqual([true, true, true]);
    expect(visit.events.find((e) => e.kind === 'restored')).toMatchObject({ byUserId: deskId, at: later });
    const letters = await database.db.outboxMessage.findMany({ where: { visitId }, orderBy: { createdAt: 'asc' } });
    expect(letters.map((l) => l.kind)).toEqual(['visit_cancelled', 'visit_booked']);
  });
});
