import { beforeAll, describe, expect, it } from 'vitest';
import { localDate, todayIn } from '@/lib/core/calendar';
import { askedOtherTime, freeAtAskedTime } from '@/lib/features/visits/reads/asked-other-time';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';
import { reply } from '@/lib/features/links/verbs/reply';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow, visitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T15:00:00Z');
const ZONE = 'America/Denver';
let made: Awaited<ReturnType<typeof haveOneUnit>>;
let actor: { userId: string };
const ctx = () => ({ db: database.db, actor, now, baseUrl: 'http://localhost:3000' });
let visitId: string;
let asked: number;

beforeAll(async () => {
  made = await haveOneUnit(database.db, {
    customer: { name: 'Nine Lanterns' },
    kitchen: { name: 'Pearl Row', contactEmail: 'chef@example.com' },
    person: { name: 'Tova' },
  });
  actor = { userId: (await database.db.user.create({ data: personRow({ role: 'dispatcher' }) })).id };
  ({ visitId } = await bookVisit(ctx(), {
    kitchenId: made.kitchen.id,
    technicianId: made.person.id,
    date: localDate('2026-11-30'),
    from: '09:00',
    minutes: 60,
    taskIds: [made.tasks[1]!.id],
    note: '',
    fixed: false,
    anyway: false,
  }));
  asked = (await freeSlotsForVisit(database.db, visitId, now))[2]!.start;
  const link = (await database.db.outboxMessage.findFirstOrThrow({ where: { visitId } })).text.match(/visit\/([\w-]+)/)![1]!;
  await reply(ctx(), { token: link, answer: 'other_time', startsAt: asked, note: 'After the delivery' });
});

const stands = () => database.db.visit.findUniqueOrThrow({ where: { id: visitId } });
const moveThere = async (technicianId: string) => {
  const { version } = await stands();
  const time = new Intl.DateTimeFormat('en-GB', { timeZone: ZONE, hour: '2-digit', minute: '2-digit' }).format(asked);
  return moveVisit(ctx(), {
    visitId,
    version,
    technicianId,
    date: todayIn(ZONE, asked),
    from: time,
    minutes: 60,
    reason: 'Asked for by the customer',
    anyway: false,
  });
};

describe('a kitchen that asks for another time', () => {
  it('stands on the list, with what it asks for', async () => {
    expect(await askedOtherTime(database.db, now)).toMatchObject([
      { id: visitId, kitchen: 'Pearl Row', asksFor: asked, note: 'After the delivery' },
    ]);
    expect(await freeAtAskedTime(database.db, visitId, asked, now)).toBe(made.person.id);
    // Short notice is the desk's to judge, not a reason to hide the time.
    expect(await freeAtAskedTime(database.db, visitId, asked, new Date(asked - 3_600_000))).toBe(made.person.id);
  });

  it('is told when the time was taken meanwhile; someone else who is free is named', async () => {
    const taken = await database.db.visit.create({
      data: visitRow(made.kitchen.id, made.person.id, new Date(asked + 30 * 60_000), 30) as never,
    });
    await expect(moveThere(made.person.id)).rejects.toMatchObject({
      code: 'overlap',
      message: expect.stringContaining('Tova is at Nine Lanterns, Pearl Row'),
    });
    expect(await freeAtAskedTime(database.db, visitId, asked, now)).toBeNull();
    const other = await database.db.user.create({ data: personRow({ name: 'June' }) });
    expect(await freeAtAskedTime(database.db, visitId, asked, now)).toBe(other.id);
    await database.db.visit.delete({ where: { id: taken.id } });
  });

  it('moves there with the reason, and leaves the list', async () => {
    await moveThere(made.person.id);
    const visit = await stands();
    expect([visit.startsAt.getTime(), visit.customerReply]).toEqual([asked, null]);
    expect(await database.db.visitEvent.findFirst({ where: { visitId, kind: 'moved' } })).toMatchObject({
      reason: 'Asked for by the customer',
    });
    expect(await askedOtherTime(database.db, now)).toEqual([]);
  });
});
