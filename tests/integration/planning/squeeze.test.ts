import { beforeEach, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import type { SqueezeOffer } from '@/lib/core/planning/squeeze/offer';
import type { SqueezeTake } from '@/lib/schemas/visits/squeeze';
import { offerSqueeze } from '@/lib/features/planning/verbs/offer-squeeze';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';
import { squeezeEmergency } from '@/lib/features/visits/verbs/squeeze-in';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow } from '../../support/factories';

const database = useDatabase();
// A Monday, 08:00 in Denver.
const now = new Date('2026-11-30T15:00:00Z');
const date = localDate('2026-11-30');
const MINUTE = 60_000;

let actor: { userId: string };
let tech: { id: string };
const ctx = () => ({ db: database.db, actor, now, baseUrl: 'http://localhost:3000' });
const kitchenAt = (n: number, over: Record<string, unknown> = {}, unit: Record<string, unknown> = {}) =>
  haveOneUnit(database.db, {
    kitchen: { lat: 39.74 + n / 100, lng: -104.98, contactEmail: `kitchen${n}@example.com`, ...over },
    unit,
    person: { active: false },
  });

/** Books a kitchen's drain inspection from a time of that Monday. */
async function booked(
  made: Awaited<ReturnType<typeof haveOneUnit>>,
  from: string,
  minutes: number,
  over: { fixed?: boolean; technicianId?: string } = {},
) {
  const { visitId } = await bookVisit(ctx(), {
    kitchenId: made.kitchen.id,
    technicianId: tech.id,
    date,
    from,
    minutes,
    taskIds: [made.tasks[1]!.id],
    note: '',
    fixed: false,
    anyway: true,
    ...over,
  });
  return database.db.visit.findUniqueOrThrow({ where: { id: visitId } });
}

const ask = (made: Awaited<ReturnType<typeof haveOneUnit>>, over = {}) => ({
  kitchenId: made.kitchen.id,
  unitIds: [made.unit.id],
  taskIds: [] as string[],
  what: 'Walk-in at 52 °F and climbing',
  minutes: 60,
  date,
  from: '08:00',
  anyHour: true,
  ...over,
});
const taking = (made: Awaited<ReturnType<typeof haveOneUnit>>, o: SqueezeOffer, over: Partial<SqueezeTake> = {}): SqueezeTake => ({
  kitchenId: made.kitchen.id,
  unitIds: [made.unit.id],
  taskIds: [],
  what: 'Walk-in at 52 °F and climbing',
  minutes: 60,
  technicianId: o.technicianId,
  startMs: o.startMs,
  moves: o.moves.map(({ visitId, version, technicianId, startMs, endMs }) => ({ visitId, version, technicianId, startMs, endMs })),
  ...over,
});
const overlaps = () => database.db.$queryRaw<unknown[]>`
  SELECT 1 FROM "Visit" a JOIN "Visit" b ON a.id < b.id AND a."technicianId" = b."technicianId" AND a.status <> 'cancelled' AND b.status <> 'cancelled'
   AND tstzrange(a."startsAt", a."endsAt") && tstzrange(b."startsAt", b."endsAt")`;

beforeEach(async () => {
  await database.db.user.updateMany({ data: { active: false } });
  await database.db.shopSettings.upsert({
    where: { id: 1 },
    create: { id: 1, name: 'Test shop', timeZone: 'America/Denver', lat: 39.74, lng: -104.98 },
    update: { lat: 39.74, lng: -104.98 },
  });
  actor = { userId: (await database.db.user.create({ data: personRow({ role: 'dispatcher', name: 'Idris' }) })).id };
  tech = await database.db.user.create({ data: personRow({ name: 'Tova', skills: ['flammable', 'roof'] }) });
});

describe('squeezing in an emergency', () => {
  it('moves what stands in the way in one go, with reason, history and a message to each kitchen', async () => {
    // A full Monday: nothing free before 13:00, so the emergency goes first and three visits slip.
    const made = [await kitchenAt(1), await kitchenAt(2), await kitchenAt(3)];
    const visits = [await booked(made[0]!, '08:30', 90), await booked(made[1]!, '10:05', 85), await booked(made[2]!, '11:40', 100)];
    const broken = await kitchenAt(4);
    const { offers } = await offerSqueeze(ctx(), ask(broken));
    const offer = offers.find((o) => o.moves.length === 3)!;
    expect(offer, JSON.stringify(offers, null, 1)).toBeDefined();
    expect(offer).toMatchObject({ technician: 'Tova' });

    const { visitId } = await squeezeEmergency(ctx(), taking(broken, offer, { taskIds: [broken.tasks[0]!.id] }));
    const emergency = await database.db.visit.findUniqueOrThrow({
      where: { id: visitId },
      include: { tasks: { include: { task: true } }, events: true },
    });
    expect(emergency).toMatchObject({
      emergency: true,
      status: 'booked',
      technicianId: tech.id,
      startsAt: new Date(offer.startMs),
      note: expect.stringContaining('Walk-in at 52 °F and climbing'),
    });
    // The low side rides along with the coil here too.
    expect(emergency.tasks.map((t) => t.task.kindKey).sort()).toEqual(['coil_cleaning', 'drain_inspection', 'evaporator_inspection']);
    expect(emergency.events).toMatchObject([
      { kind: 'booked', reason: 'Emergency: Walk-in at 52 °F and climbing', byUserId: actor.userId },
    ]);

    for (const move of offer.moves) {
      const before = visits.find((v) => v.id === move.visitId)!;
      const after = await database.db.visit.findUniqueOrThrow({
        where: { id: move.visitId },
        include: { events: { orderBy: { at: 'asc' } } },
      });
      expect(after).toMatchObject({ startsAt: new Date(move.startMs), version: 2, sequence: 1 });
      expect(after.endsAt.getTime() - after.startsAt.getTime()).toBe(before.endsAt.getTime() - before.startsAt.getTime());
      const event = after.events.find((e) => e.kind === 'moved')!;
      expect(event).toMatchObject({
        reason: `Made room for an emergency at ${broken.customer.name}, ${broken.kitchen.name}`,
        byUserId: actor.userId,
        detail: { from: { startsAt: before.startsAt.toISOString() } },
      });
      expect(
        await database.db.outboxMessage.count({
          where: { visitId: move.visitId, kind: 'visit_moved', toEmail: { contains: '@example.com' } },
        }),
      ).toBe(1);
    }
    expect(await database.db.outboxMessage.count({ where: { visitId, kind: 'visit_booked' } })).toBe(1);
    expect(await overlaps()).toEqual([]);
  });

  it('books nothing and moves nothing when one of the visits was changed meanwhile, and says by whom', async () => {
    const made = [await kitchenAt(1), await kitchenAt(2)];
    const visits = [await booked(made[0]!, '08:30', 150), await booked(made[1]!, '11:10', 170)];
    const broken = await kitchenAt(4);
    const { offers } = await offerSqueeze(ctx(), ask(broken));
    const offer = offers.find((o) => o.moves.length === 2)!;
    expect(offer).toBeDefined();
    const later = visits.find((v) => v.id === offer.moves[1]!.visitId)!;
    await moveVisit(ctx(), {
      visitId: later.id,
      version: 1,
      technicianId: tech.id,
      date,
      from: '14:30',
      minutes: 60,
      reason: 'The chef asked',
      anyway: true,
    });
    await expect(squeezeEmergency(ctx(), taking(broken, offer))).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringMatching(/Idris changed this visit meanwhile: moved \(The chef asked\)/),
    });
    expect(await database.db.visit.findUniqueOrThrow({ where: { id: offer.moves[0]!.visitId } })).toMatchObject({ version: 1 });
    expect(await database.db.visit.count({ where: { kitchenId: broken.kitchen.id } })).toBe(0);
  });

  it('undoes every move when the time of the emergency itself was taken', async () => {
    const made = [await kitchenAt(1), await kitchenAt(2)];
    await booked(made[0]!, '10:00', 120);
    const broken = await kitchenAt(4);
    const { offers } = await offerSqueeze(ctx(), ask(broken));
    const [offer] = offers;
    const at = new Date(offer!.startMs + 10 * MINUTE);
    await database.db.visit.create({
      data: { kitchenId: made[1]!.kitchen.id, technicianId: tech.id, startsAt: at, endsAt: new Date(at.getTime() + 10 * MINUTE) },
    });
    const messages = await database.db.outboxMessage.count();
    const standing = await database.db.visit.findMany({ orderBy: { id: 'asc' } });
    const moves = [
      {
        visitId: standing.find((v) => v.kitchenId === made[0]!.kitchen.id)!.id,
        version: 1,
        technicianId: tech.id,
        startMs: now.getTime() + 6 * 3_600_000,
        endMs: now.getTime() + 8 * 3_600_000,
      },
    ];
    await expect(squeezeEmergency(ctx(), taking(broken, offer!, { moves }))).rejects.toMatchObject({
      code: 'overlap',
      message: expect.stringContaining('nothing was booked or moved'),
    });
    expect(await database.db.visit.findMany({ orderBy: { id: 'asc' } })).toEqual(standing);
    expect(await database.db.outboxMessage.count()).toBe(messages);
  });

  it('leaves fixed visits and earlier emergencies where they are', async () => {
    const made = [await kitchenAt(1), await kitchenAt(2)];
    await booked(made[0]!, '08:30', 120, { fixed: true });
    const first = await kitchenAt(3);
    const { offers } = await offerSqueeze(ctx(), ask(first));
    await squeezeEmergency(ctx(), taking(first, offers[0]!));
    await booked(made[1]!, '13:30', 90);
    const second = await kitchenAt(4);
    const held = await database.db.visit.findMany({ where: { OR: [{ fixed: true }, { emergency: true }], technicianId: tech.id } });
    expect(held).toHaveLength(2);
    const again = await offerSqueeze(ctx(), ask(second));
    expect(again.offers.length).toBeGreaterThan(0);
    for (const o of again.offers) expect(o.moves.map((m) => m.visitId).filter((id) => held.some((h) => h.id === id))).toEqual([]);
    // Nor by whoever asks for it past the offers: it was made fixed while the list was looked at.
    const [offer] = again.offers;
    const fixed = held.find((h) => h.fixed);
    if (!offer || !fixed) throw new Error('nothing to take');
    const startMs = fixed.startsAt.getTime() + 86_400_000;
    const endMs = fixed.endsAt.getTime() + 86_400_000;
    const move = { visitId: fixed.id, version: fixed.version, technicianId: tech.id, startMs, endMs };
    await expect(squeezeEmergency(ctx(), { ...taking(second, offer), moves: [move] })).rejects.toMatchObject({ code: 'conflict' });
    expect(await database.db.visit.findUnique({ where: { id: fixed.id } })).toEqual(fixed);
  });

  it('sends nobody without the skill, and says so', async () => {
    await database.db.user.update({ where: { id: tech.id }, data: { skills: [] } });
    const broken = await kitchenAt(4, {}, { refrigerant: 'R290' });
    const answer = await offerSqueeze(ctx(), ask(broken));
    expect(answer.offers).toEqual([]);
    expect(answer.notes.join(' ')).toContain('flammable refrigerants');
    const forced = { technicianId: tech.id, startMs: now.getTime() + 3_600_000, moves: [] } as unknown as SqueezeOffer;
    await expect(squeezeEmergency(ctx(), taking(broken, forced))).rejects.toMatchObject({ code: 'invalid', field: 'technicianId' });
  });

  it('says that nobody is on file, whatever the work asks for', async () => {
    await database.db.user.updateMany({ data: { active: false } });
    const answer = await offerSqueeze(ctx(), ask(await kitchenAt(4)));
    expect(answer).toMatchObject({ offers: [], notes: ['No technician is on file yet, so nobody can be sent.'] });
  });

  it('keeps to the hours of a kitchen that lets nobody in at others', async () => {
    const broken = await kitchenAt(4, { serviceHours: [{ weekday: 0, from: '14:00', to: '16:00' }] });
    const { offers } = await offerSqueeze(ctx(), ask(broken, { anyHour: false }));
    expect(offers.map((o) => new Date(o.startMs).toISOString())).toEqual(['2026-11-30T21:00:00.000Z']);
    const anyHour = await offerSqueeze(ctx(), ask(broken));
    expect(anyHour.offers[0]!.startMs).toBeLessThan(Date.parse('2026-11-30T16:00:00Z'));
  });
});

describe('what cannot wait, in the evening', () => {
  const evening = new Date('2026-12-01T02:20:00Z');
  const at1920 = { from: '19:20', date };

  it('goes to whoever is on call, at once, and not into the hours of any other visit', async () => {
    const { db } = database;
    const made = await kitchenAt(1);
    const without = await offerSqueeze({ db, now: evening }, ask(made, at1920));
    expect(without.offers[0]!.waitMinutes).toBeGreaterThan(600);
    expect(without.couldAsk.map((p) => p.phone)).toEqual(['']);
    await db.user.update({ where: { id: tech.id }, data: { phone: '555-0177', onCall: [{ weekday: 0, from: '16:30', to: '24:00' }] } });
    const on = await offerSqueeze({ db, now: evening }, ask(made, at1920));
    expect(on.couldAsk).toEqual([]);
    expect(on.offers[0]).toMatchObject({ technicianId: tech.id, onCall: true, phone: '555-0177', moves: [] });
    expect(on.offers[0]!.waitMinutes).toBeLessThan(60);
    const { visitId } = await squeezeEmergency({ ...ctx(), now: evening }, taking(made, on.offers[0]!));
    expect((await db.visit.findUniqueOrThrow({ where: { id: visitId } })).emergency).toBe(true);
  });
});
