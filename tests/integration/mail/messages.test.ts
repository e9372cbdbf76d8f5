import ICAL from 'ical.js';
import { SMTPServer } from 'smtp-server';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { AddressInfo } from 'node:net';
import { localDate } from '@/lib/core/calendar';
import { visitByLink } from '@/lib/features/links/reads/customer-links';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { createFeed, createFeeds, revokeFeeds } from '@/lib/features/feeds/verbs/create-feed';
import { readFeed } from '@/lib/features/feeds/verbs/read-feed';
import { reply } from '@/lib/features/links/verbs/reply';
import { recentMessages } from '@/lib/features/mail/reads/messages';
import { composeVisitMessage } from '@/lib/features/mail/verbs/compose-visit-message';
import { decideMessage } from '@/lib/features/mail/verbs/decide-message';
import { drainOutbox } from '@/lib/features/mail/verbs/drain-outbox';
import { overtakenBy } from '@/lib/features/mail/verbs/overtaken';
import { tellShop } from '@/lib/features/mail/verbs/tell-shop';
import { undoPlan } from '@/lib/features/planning/verbs/accept-plan';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';
import { useDatabase } from '../../support/database';
import { ANY_TIME, haveOneUnit } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T15:00:00Z');
const ctx = () => ({ db: database.db, actor: { userId: made.person.id }, now, baseUrl: 'http://shop.example' });
let made: Awaited<ReturnType<typeof haveOneUnit>>;
let visitId: string;

const slot = (from: string) => ({ technicianId: made.person.id, date: localDate('2026-12-01'), from, minutes: 60, anyway: false });
const parse = (ics: string) => {
  const calendar = new ICAL.Component(ICAL.parse(ics));
  const event = new ICAL.Event(calendar.getFirstSubcomponent('vevent')!);
  return { method: calendar.getFirstPropertyValue('method'), event };
};
const messages = () => database.db.outboxMessage.findMany({ where: { visitId }, orderBy: { createdAt: 'asc' } });
const tokenIn = (text: string) => /\/visit\/([\w-]{43})/.exec(text)?.[1] ?? '';

const received: string[] = [];
let refuse = false;
/** The server has the message and hangs up without a word. */
let hangUp = false;
const server = new SMTPServer({
  authOptional: true,
  disabledCommands: ['STARTTLS'],
  onData(stream, session, done) {
    let text = '';
    stream.on('data', (d: Buffer) => (text += d.toString()));
    stream.on('end', () => {
      if (refuse) return done(new Error('mailbox full'));
      received.push(text);
      if (hangUp) return [...server.connections].find((c) => c.session.id === session.id)?.close();
      done();
    });
  },
});
let smtpUrl: string;

beforeAll(async () => {
  made = await haveOneUnit(database.db, { kitchen: { contactEmail: 'chef@lantern.example', contactName: 'Chef' } });
  ({ visitId } = await bookVisit(ctx(), {
    ...slot('09:00'),
    kitchenId: made.kitchen.id,
    taskIds: [made.tasks[0]!.id],
    note: '',
    fixed: false,
  }));
  await new Promise<void>((ok) => server.listen(0, '127.0.0.1', ok));
  smtpUrl = `smtp://127.0.0.1:${(server.server.address() as AddressInfo).port}`;
});
afterAll(() => new Promise<void>((ok) => server.close(ok)));

describe('the calendar invitation, read back by an independent parser', () => {
  it('keeps its identity and raises its sequence through move and cancel', async () => {
    await moveVisit(ctx(), { visitId, version: 1, ...slot('11:00'), reason: 'Delivery in the morning' });
    const [first, second] = (await messages()).sort((a, b) => a.kind.localeCompare(b.kind)).map((m) => parse(m.ics));
    expect([first!.method, second!.method]).toEqual(['REQUEST', 'REQUEST']);
    expect(second!.event.uid).toBe(first!.event.uid);
    expect([first!.event.sequence, second!.event.sequence]).toEqual([0, 1]);
    expect(first!.event.startDate.toJSDate().toISOString()).toBe('2026-12-01T16:00:00.000Z');
    expect(second!.event.startDate.toJSDate().toISOString()).toBe('2026-12-01T18:00:00.000Z');
  });

  it.each([
    // The wall time of the kitchen is kept over the change of clocks.
    ['America/New_York', '2026-03-09', '2026-03-09T13:00:00.000Z'],
    ['Europe/London', '2026-03-30', '2026-03-30T08:00:00.000Z'],
    ['Australia/Lord_Howe', '2026-10-05', '2026-10-04T22:00:00.000Z'],
    ['America/Phoenix', '2026-03-09', '2026-03-09T16:00:00.000Z'],
  ])('a nine-o’clock visit in %s in the week after the clocks change', async (timeZone, date, expected) => {
    const there = await haveOneUnit(database.db, {
      kitchen: { timeZone, contactEmail: 'chef@else.example', serviceHours: [] },
      person: { shifts: ANY_TIME },
    });
    const booked = await bookVisit(
      { ...ctx(), now: new Date('2026-01-05T00:00:00Z') },
      {
        technicianId: there.person.id,
        date: localDate(date),
        from: '09:00',
        minutes: 45,
        anyway: false,
        kitchenId: there.kitchen.id,
        taskIds: [there.tasks[1]!.id],
        note: '',
        fixed: false,
      },
    );
    const [m] = await database.db.outboxMessage.findMany({ where: { visitId: booked.visitId } });
    expect(parse(m!.ics).event.startDate.toJSDate().toISOString()).toBe(expected);
    // Units are switched off for their coils alone.
    expect(there.tasks[1]!.kindKey).not.toBe('coil_cleaning');
    expect(m!.text).not.toContain('coils are cleaned');
  });

  it('says that units are switched off where a coil is cleaned', async () => {
    expect(made.tasks[0]!.kindKey).toBe('coil_cleaning');
    expect((await messages())[0]!.text).toContain('switched off in turn while their coils are cleaned');
  });
});

describe('the customer’s link', () => {
  it('opens one visit, the older link no more, and nothing for a guess', async () => {
    const [first, second] = (await messages()).sort((a, b) => a.kind.localeCompare(b.kind));
    expect(await visitByLink(database.db, tokenIn(first!.text), now)).toBeNull();
    expect((await visitByLink(database.db, tokenIn(second!.text), now))?.id).toBe(visitId);
    expect(await visitByLink(database.db, 'A'.repeat(43), now)).toBeNull();
    expect(await visitByLink(database.db, tokenIn(second!.text), new Date('2026-12-02T00:00:00Z'))).toBeNull();
    expect(JSON.stringify(await database.db.customerLink.findMany())).not.toContain(tokenIn(second!.text));
  });

  it('opens nothing once the visit has begun, is over or was cancelled, and then takes no answer', async () => {
    const there = await haveOneUnit(database.db, { kitchen: { contactEmail: 'chef@begun.example' } });
    const tasks = { kitchenId: there.kitchen.id, technicianId: there.person.id, taskIds: [there.tasks[0]!.id] };
    const { visitId: id } = await bookVisit(ctx(), { ...slot('09:00'), ...tasks, note: '', fixed: false });
    const letter = await database.db.outboxMessage.findFirstOrThrow({ where: { visitId: id } });
    const token = tokenIn(letter.text);
    expect((await visitByLink(database.db, token, now))?.id).toBe(id);
    for (const status of ['started', 'done', 'cancelled'] as const) {
      const over =
        status === 'done'
          ? { arrivedAt: now, leftAt: now, closedAt: now, nobodyThere: true }
          : { cancelReason: status === 'cancelled' ? 'Kitchen closed' : '' };
      await database.db.visit.update({ where: { id }, data: { status, ...over } });
      expect(await visitByLink(database.db, token, now), status).toBeNull();
      await expect(reply(ctx(), { token, answer: 'confirmed', note: '' })).rejects.toMatchObject({ code: 'not_found' });
    }
    expect((await database.db.visit.findUniqueOrThrow({ where: { id } })).customerReply).toBeNull();
    await database.db.outboxMessage.deleteMany({ where: { visitId: id } });
  });

  it('offers only times that are really free, and refuses any other', async () => {
    const token = tokenIn((await messages()).find((m) => m.kind === 'visit_moved')!.text);
    const slots = await freeSlotsForVisit(database.db, visitId, now);
    expect(slots.length).toBeGreaterThan(3);
    await expect(reply(ctx(), { token, answer: 'other_time', startsAt: slots[0]!.start + 60_000, note: '' })).rejects.toMatchObject({
      code: 'conflict',
    });
    await reply(ctx(), { token, answer: 'other_time', startsAt: slots[2]!.start, note: 'After the delivery' });
    const visit = await database.db.visit.findUniqueOrThrow({ where: { id: visitId } });
    expect([visit.customerReply, visit.replyStartsAt?.getTime()]).toEqual(['other_time', slots[2]!.start]);
    expect(visit).toMatchObject({ replyNote: 'After the delivery', version: 3 });
    const said = (kind: 'asked_other_time' | 'confirmed') => database.db.visitEvent.findFirstOrThrow({ where: { visitId, kind } });
    expect(await said('asked_other_time')).toMatchObject({
      at: now,
      reason: 'After the delivery',
      detail: { startsAt: new Date(slots[2]!.start).toISOString() },
    });
    await expect(reply(ctx(), { token, answer: 'other_time', note: '' })).rejects.toMatchObject({ code: 'conflict', field: 'startsAt' });
    // Whoever thinks better of it confirms the time that stands.
    await reply(ctx(), { token, answer: 'confirmed', note: '' });
    expect(await said('confirmed')).toMatchObject({ at: now, reason: '' });
    expect(JSON.stringify((await said('confirmed')).detail)).not.toContain('startsAt');
    expect(await database.db.visit.findUniqueOrThrow({ where: { id: visitId } })).toMatchObject({
      customerReply: 'confirmed',
      replyStartsAt: null,
      replyNote: '',
    });
  });
});

describe('sending', () => {
  it('holds messages without a mail server, sends them once there is one, and never twice', async () => {
    expect(await drainOutbox(ctx(), { from: 'shop@example.test' })).toBe(0);
    expect((await messages()).every((m) => m.status === 'held')).toBe(true);
    const mail = { smtpUrl, from: 'shop@example.test' };
    const sent = await Promise.all([drainOutbox(ctx(), mail), drainOutbox(ctx(), mail)]);
    // Of this visit, moved in between, only the newer one: "comes at nine" after "comes at eleven" would be wrong.
    const states = (await messages()).map((m) => [m.kind, m.status]).sort();
    expect(states).toEqual([
      ['visit_booked', 'overtaken'],
      ['visit_moved', 'sent'],
    ]);
    // The other four were for days of March or October that are long over.
    expect(await database.db.outboxMessage.count({ where: { status: 'overtaken' } })).toBe(5);
    expect([sent[0]! + sent[1]!, received.length]).toEqual([1, 1]);
    expect(received[0]).toMatch(/text\/calendar.*method=REQUEST/i);
    expect(await drainOutbox(ctx(), mail)).toBe(0);
  });

  it('keeps a refused message, with what the server said, for the next try', async () => {
    const version = (await database.db.visit.findUniqueOrThrow({ where: { id: visitId } })).version;
    await cancelVisit(ctx(), { visitId, version, reason: 'Kitchen closed' });
    refuse = true;
    await drainOutbox(ctx(), { smtpUrl, from: 'shop@example.test' });
    const last = (await messages()).find((m) => m.kind === 'visit_cancelled')!;
    expect([last.status, last.attempts]).toEqual(['queued', 1]);
    expect(last.error).toContain('mailbox full');
    expect(parse(last.ics).method).toBe('CANCEL');
    refuse = false;
    expect(await drainOutbox(ctx(), { smtpUrl, from: 'shop@example.test' })).toBe(1);
  });

  it('keeps nothing of a link to choose a password once it is sent', async () => {
    const { db } = database;
    const row = {
      kind: 'password_link' as const,
      toEmail: 'new@shop.example',
      subject: 'Choose a password',
      text: 'Open http://shop/sign-in/link/x',
    };
    const { id } = await db.outboxMessage.create({ data: { ...row, createdAt: now } });
    const stale = await db.outboxMessage.create({ data: { ...row, createdAt: new Date(now.getTime() - 8 * 86_400_000) } });
    expect(await drainOutbox(ctx(), { smtpUrl, from: 'shop@example.test' })).toBe(1);
    expect(received.at(-1)).toContain('/sign-in/link/x');
    expect(await db.outboxMessage.findUnique({ where: { id } })).toMatchObject({ status: 'sent', text: '' });
    expect((await db.outboxMessage.findUnique({ where: { id: stale.id } }))?.status).toBe('overtaken');
  });

  it('gives up after six tries, says so, and goes again only when a person wants it', async () => {
    const { db } = database;
    const { id } = await db.outboxMessage.create({
      data: { kind: 'weekly_owner', toEmail: 'owner@shop.example', subject: 'Six times', text: 'x' },
    });
    const mail = { smtpUrl, from: 'shop@example.test' };
    const stand = async () => {
      const { status, attempts } = await db.outboxMessage.findUniqueOrThrow({ where: { id } });
      return [status, attempts];
    };
    refuse = true;
    for (let i = 1; i < 6; i++) await drainOutbox(ctx(), mail);
    expect(await stand()).toEqual(['queued', 5]);
    await drainOutbox(ctx(), mail);
    await drainOutbox(ctx(), mail);
    expect(await stand()).toEqual(['failed', 6]);
    refuse = false;
    expect(await drainOutbox(ctx(), mail)).toBe(0);
    await decideMessage(ctx(), { messageId: id, decision: 'again' });
    expect(await drainOutbox(ctx(), mail)).toBe(1);
    expect(await stand()).toEqual(['sent', 1]);
  });

  it('does not send after the newer one what was refused for a while before it', async () => {
    const there = await haveOneUnit(database.db, { kitchen: { contactEmail: 'chef@later.example' } });
    const at = { technicianId: there.person.id, date: localDate('2026-12-02'), minutes: 60, anyway: false };
    const tasks = { kitchenId: there.kitchen.id, taskIds: [there.tasks[0]!.id], note: '', fixed: false };
    const booked = await bookVisit(ctx(), { ...at, ...tasks, from: '09:00' });
    const mail = { smtpUrl, from: 'shop@example.test' };
    refuse = true;
    await drainOutbox(ctx(), mail);
    refuse = false;
    await moveVisit(ctx(), { visitId: booked.visitId, version: 1, ...at, from: '11:00', reason: 'Delivery in the morning' });
    expect(await drainOutbox(ctx(), mail)).toBe(1);
    const messages = await database.db.outboxMessage.findMany({ where: { visitId: booked.visitId }, orderBy: { status: 'asc' } });
    expect(messages.map((m) => [m.kind, m.status, m.error])).toEqual([
      ['visit_moved', 'sent', ''],
      ['visit_booked', 'overtaken', expect.stringContaining('was changed after this was written')],
    ]);
  });

  it('goes out at most once where the server took it and said nothing: a person decides', async () => {
    const there = await haveOneUnit(database.db, { kitchen: { contactEmail: 'chef@silent.example' } });
    const at = { technicianId: there.person.id, date: localDate('2026-12-08'), from: '09:00', minutes: 60, anyway: false };
    const booked = await bookVisit(ctx(), { ...at, kitchenId: there.kitchen.id, taskIds: [there.tasks[0]!.id], note: '', fixed: false });
    const mail = { smtpUrl, from: 'shop@example.test' };
    const state = async () => (await database.db.outboxMessage.findFirstOrThrow({ where: { visitId: booked.visitId } })).status;
    const before = received.length;
    hangUp = true;
    for (let i = 0; i < 3; i++) expect(await drainOutbox(ctx(), mail)).toBe(0);
    hangUp = false;
    expect([received.length - before, await state()]).toEqual([1, 'unknown']);
    const { id } = await database.db.outboxMessage.findFirstOrThrow({ where: { visitId: booked.visitId } });
    await decideMessage(ctx(), { messageId: id, decision: 'again' });
    expect([await drainOutbox(ctx(), mail), await state()]).toEqual([1, 'sent']);
    await expect(decideMessage(ctx(), { messageId: id, decision: 'leave' })).rejects.toMatchObject({ code: 'conflict' });
  });

  it('is not known to have arrived when whoever sent it is gone', async () => {
    const m = await database.db.outboxMessage.create({
      data: { kind: 'visit_booked', toEmail: 'a@b.example', subject: 's', text: 't', status: 'sending', claimedAt: now },
    });
    const mail = { smtpUrl, from: 'shop@example.test' };
    const state = async () => (await database.db.outboxMessage.findUniqueOrThrow({ where: { id: m.id } })).status;
    expect([await drainOutbox(ctx(), mail), await state()]).toEqual([0, 'sending']);
    const later = { ...ctx(), now: new Date(now.getTime() + 16 * 60_000) };
    expect([await drainOutbox(later, mail), await state()]).toEqual([0, 'unknown']);
    await decideMessage(ctx(), { messageId: m.id, decision: 'leave' });
    expect(await state()).toBe('left');
  });

  it.each([
    ['whose time has come', {}, new Date('2026-12-03T16:00:00Z')],
    ['that has begun early', { status: 'started' }, new Date('2026-12-03T15:00:00Z')],
  ] as const)('does not announce a visit %s', async (_, change, later) => {
    const there = await haveOneUnit(database.db, { kitchen: { contactEmail: 'chef@late.example' } });
    const at = { technicianId: there.person.id, date: localDate('2026-12-03'), from: '09:00', minutes: 60, anyway: false };
    const booked = await bookVisit(ctx(), { ...at, kitchenId: there.kitchen.id, taskIds: [there.tasks[0]!.id], note: '', fixed: false });
    await database.db.visit.update({ where: { id: booked.visitId }, data: change });
    expect(await drainOutbox({ ...ctx(), now: later }, { smtpUrl, from: 'shop@example.test' })).toBe(0);
    const [m] = await database.db.outboxMessage.findMany({ where: { visitId: booked.visitId } });
    expect(m).toMatchObject({ status: 'overtaken', attempts: 0, error: expect.stringMatching(/^The (time of the )?visit has /) });
  });
});

describe('a proposal taken back', () => {
  it('tells the kitchen why in words meant for it', async () => {
    const there = await haveOneUnit(database.db, { kitchen: { contactEmail: 'chef@proposed.example' } });
    const at = { technicianId: there.person.id, date: localDate('2026-12-04'), from: '09:00', minutes: 60, anyway: false };
    const booked = await bookVisit(ctx(), { ...at, kitchenId: there.kitchen.id, taskIds: [there.tasks[0]!.id], note: '', fixed: false });
    const run = await database.db.planRun.create({
      data: { createdById: made.person.id, weekStart: new Date('2026-11-30'), status: 'accepted', params: { booked: [booked.visitId] } },
    });
    expect(await undoPlan(ctx(), run.id)).toBe(1);
    const message = await database.db.outboxMessage.findFirstOrThrow({ where: { visitId: booked.visitId, kind: 'visit_cancelled' } });
    expect(message.text).toContain('is cancelled. Reason: The time is planned anew, and a new one follows.');
    expect(message.text).not.toMatch(/proposal/i);
  });
});

describe('a calendar to subscribe to', () => {
  it('names itself, says when to come back, marks what was cancelled, and ends when revoked', async () => {
    const address = await createFeed(ctx(), { userId: made.person.id });
    const token = address.split('/').at(-1)!;
    const calendar = new ICAL.Component(ICAL.parse(await readFeed(ctx(), token)));
    expect(calendar.getFirstPropertyValue('name')).toContain(made.person.name);
    expect(String(calendar.getFirstPropertyValue('refresh-interval'))).toBe('PT1H');
    const statuses = calendar.getAllSubcomponents('vevent').map((e) => e.getFirstPropertyValue('status'));
    expect(statuses).toEqual(['CANCELLED']);
    await revokeFeeds(ctx(), { userId: made.person.id });
    await expect(readFeed(ctx(), token)).rejects.toMatchObject({ code: 'not_found' });
  });

  it('a new address ends the old one, nobody else’s, and opens only while its person is here', async () => {
    const { db } = database;
    const token = (address: string) => address.split('/').at(-1) ?? '';
    const none = { code: 'not_found' };
    const kitchen = token(await createFeed(ctx(), { kitchenId: made.kitchen.id }));
    const first = token(await createFeed(ctx(), { userId: made.person.id }));
    const second = token(await createFeed(ctx(), { userId: made.person.id }));
    await expect(readFeed(ctx(), first)).rejects.toMatchObject(none);
    expect(await readFeed(ctx(), second)).toContain('BEGIN:VCALENDAR');
    await db.user.update({ where: { id: made.person.id }, data: { active: false } });
    await expect(readFeed(ctx(), second)).rejects.toMatchObject(none);
    await db.user.update({ where: { id: made.person.id }, data: { active: true } });
    expect(await readFeed(ctx(), kitchen)).toContain('BEGIN:VCALENDAR');
    for (const guess of ['', 'A'.repeat(43), second.slice(1)]) await expect(readFeed(ctx(), guess)).rejects.toMatchObject(none);
    // Addresses are made for those that have none, once.
    const more = await createFeeds(ctx(), { whose: 'kitchens' });
    expect(more.length).toBeGreaterThan(0);
    expect(more.map((f) => f.name)).not.toContain(`${made.customer.name}, ${made.kitchen.name}`);
    expect(await createFeeds(ctx(), { whose: 'kitchens' })).toEqual([]);
  });
});

describe('a message about a visit', () => {
  const book = async (over: { kitchen?: object; customer?: object; at?: string } = {}) => {
    const there = await haveOneUnit(database.db, { kitchen: over.kitchen ?? {} });
    await database.db.customer.update({ where: { id: there.customer.id }, data: over.customer ?? {} });
    const at = { technicianId: there.person.id, date: localDate('2026-12-09'), from: over.at ?? '09:00', minutes: 90, anyway: false };
    const taskIds = there.tasks.map((t) => t.id);
    const { visitId: id } = await bookVisit(ctx(), { ...at, kitchenId: there.kitchen.id, taskIds, note: '', fixed: false });
    return { ...there, id };
  };
  const lettersOf = (id: string) => database.db.outboxMessage.findMany({ where: { visitId: id }, orderBy: { createdAt: 'asc' } });

  it('goes to the kitchen’s own address, else the customer’s, in their language, else nowhere', async () => {
    const { db } = database;
    await db.shopSettings.update({ where: { id: 1 }, data: { phone: '555 0100', email: 'office@larkspur.example' } });
    const own = await book({
      kitchen: { contactEmail: 'chef@oak.example', contactName: 'Ana "Chef" Ruiz', name: 'Oak, the Grill' },
      customer: { email: 'boss@oak.example' },
    });
    const [letter] = await lettersOf(own.id);
    expect(letter).toMatchObject({
      kind: 'visit_booked',
      toEmail: 'chef@oak.example',
      icsMethod: 'REQUEST',
      createdAt: now,
      status: 'queued',
    });
    expect(letter?.subject).toMatch(new RegExp(`^Visit booked: ${own.customer.name}, Oak, the Grill, .*December 9.*9:00`));
    const lines = letter?.text.split('\n') ?? [];
    expect(lines[0]).toMatch(/^Someone of Test shop comes to Oak, the Grill: .*9:00.* to 10:30/);
    // Each task of the unit, in the order of the alphabet, each once.
    const work = lines.filter((l) => l.startsWith('- '));
    expect(work).toHaveLength(3);
    expect(work).toEqual(work.toSorted());
    expect(work.every((l) => l.startsWith('- Reach-in: '))).toBe(true);
    expect(lines.at(-1)).toBe('Test shop · 555 0100 · office@larkspur.example');
    const ics = parse(letter?.ics ?? '');
    expect(ics.event.summary).toBe('Test shop: Oak, the Grill');
    expect(ics.event.organizer).toBe('mailto:office@larkspur.example');
    expect(ics.event.attendees.map((a) => [String(a.getFirstValue()).toLowerCase(), a.getParameter('rsvp')])).toEqual([
      ['mailto:chef@oak.example', 'TRUE'],
    ]);
    expect(String(ics.event.attendees[0]?.getParameter('cn'))).not.toContain('"');
    expect(ics.event.description.split('\n')).toEqual(work.map((l) => l.slice(2)));
    expect(ics.event.endDate.toJSDate().getTime() - ics.event.startDate.toJSDate().getTime()).toBe(90 * 60_000);

    const theirs = await book({ kitchen: { contactEmail: '' }, customer: { email: 'jefa@pino.example', language: 'es' } });
    const [carta] = await lettersOf(theirs.id);
    expect(carta).toMatchObject({ toEmail: 'jefa@pino.example', subject: expect.stringMatching(/diciembre/) });
    expect(carta?.text).not.toMatch(/Confirm, or|comes to/);

    const nobody = await book({ kitchen: { contactEmail: '' } });
    expect(await lettersOf(nobody.id)).toEqual([]);
    expect(await composeVisitMessage(db, nobody.id, 'reminder', ctx())).toBe(false);
    expect(await db.customerLink.count({ where: { visitId: nobody.id } })).toBe(0);
  });

  it('cancelled says why and asks for no answer; a reminder leaves the address of before alive', async () => {
    const { db } = database;
    const { id, kitchen } = await book({ kitchen: { contactEmail: 'chef@elm.example' }, at: '11:00' });
    const links = () => db.customerLink.count({ where: { visitId: id, revokedAt: null } });
    expect(await composeVisitMessage(db, id, 'reminder', ctx())).toBe(true);
    expect(await links()).toBe(2);
    const reminder = (await lettersOf(id)).find((m) => m.kind === 'visit_reminder');
    expect(reminder?.text).toMatch(/^Tomorrow: /);
    expect(await visitByLink(db, tokenIn(reminder?.text ?? ''), now)).toMatchObject({ id });
    const { version } = await db.visit.findUniqueOrThrow({ where: { id } });
    await cancelVisit(ctx(), { visitId: id, version, reason: 'The van broke down.' });
    const last = (await lettersOf(id)).find((m) => m.kind === 'visit_cancelled');
    expect(last).toMatchObject({ icsMethod: 'CANCEL' });
    expect(last?.text.split('\n')[0]).toMatch(
      new RegExp(`^Our visit to ${kitchen.name} \\(.*\\) is cancelled\\. Reason: The van broke down\\.$`),
    );
    expect(last?.text).not.toMatch(/\/visit\/|We look after|switched off/);
    expect(await links()).toBe(0);
  });

  it('holds no more once the visit is gone, over or another than it says', async () => {
    const { db } = database;
    const { id } = await book({ kitchen: { contactEmail: 'chef@fir.example' }, at: '13:00' });
    const visit = await db.visit.update({ where: { id }, data: { sequence: 2 } });
    const message = { kind: 'visit_moved', ics: 'BEGIN:VEVENT\r\nSEQUENCE:2\r\nEND:VEVENT', visitId: id, createdAt: now };
    const why = (over: object, at = now) => overtakenBy(db, { ...message, ...over }, at);
    const after = (at: Date, ms: number) => new Date(at.getTime() + ms);
    expect(await why({})).toBeNull();
    expect(await why({ ics: 'SEQUENCE:1' })).toMatch(/^The visit was changed after this was written/);
    // What has no calendar in it is of the first state.
    expect(await why({ ics: '' })).toMatch(/^The visit was changed/);
    expect(await why({ visitId: crypto.randomUUID() })).toBe('The visit is no longer on file.');
    expect(await why({ visitId: null })).toBeNull();
    expect([await why({}, after(visit.startsAt, -1)), await why({}, visit.startsAt)]).toEqual([
      null,
      'The time of the visit has come already.',
    ]);
    const cancelled = { kind: 'visit_cancelled' };
    expect([await why(cancelled, after(visit.endsAt, -1)), await why(cancelled, visit.endsAt)]).toEqual([
      null,
      'The time of the visit is over.',
    ]);
    const week = 7 * 86_400_000;
    const password = { kind: 'password_link', visitId: null };
    expect([await why(password, after(now, week - 1)), await why(password, after(now, week))]).toEqual([
      null,
      'The link in it is too old by now.',
    ]);
    await db.visit.update({ where: { id }, data: { status: 'cancelled', cancelReason: 'Closed' } });
    expect(await why({})).toBe('The visit has begun, is over or was cancelled.');
    expect(await why(cancelled)).toBeNull();
  });
});

describe('the outbox', () => {
  it('shows the newest first, so many at most, and what the shop is told where it has an address', async () => {
    const { db } = database;
    const later = (minutes: number) => new Date(now.getTime() + minutes * 60_000);
    await db.outboxMessage.deleteMany();
    await db.shopSettings.update({ where: { id: 1 }, data: { email: '' } });
    await tellShop(db, later(1), { subject: 'Nobody reads it', lines: [] });
    await db.shopSettings.update({ where: { id: 1 }, data: { email: 'office@larkspur.example' } });
    await tellShop(db, later(2), { subject: 'Oak asks', lines: ['First', '', 'Second'] });
    await tellShop(db, later(3), { subject: 'Elm asks', lines: ['One'] });
    expect(await recentMessages(db, 2)).toMatchObject([
      { subject: 'Elm asks', kind: 'customer_call', toEmail: 'office@larkspur.example', createdAt: later(3) },
      { subject: 'Oak asks', text: 'First\n\nSecond' },
    ]);
    expect(await db.outboxMessage.count({ where: { subject: 'Nobody reads it' } })).toBe(0);
    const [first] = await recentMessages(db);
    await db.outboxMessage.update({
      where: { id: first!.id },
      data: { status: 'failed', attempts: 6, error: 'No such mailbox', claimedAt: now },
    });
    await decideMessage(ctx(), { messageId: first!.id, decision: 'again' });
    expect(await db.outboxMessage.findUnique({ where: { id: first!.id } })).toMatchObject({
      status: 'queued',
      attempts: 0,
      error: '',
      claimedAt: null,
    });
    const said = await db.auditEntry.findMany({ where: { entityId: first!.id } });
    expect(said).toMatchObject([{ action: 'message.sent_again', entity: 'OutboxMessage', userId: made.person.id, at: now }]);
  });
});
