import ICAL from 'ical.js';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { makePage } from '@/lib/features/customer-pages/verbs/make-page';
import { calendarOwners } from '@/lib/features/feeds/reads/calendar-feeds';
import { createFeed, createFeeds, revokeFeeds } from '@/lib/features/feeds/verbs/create-feed';
import { readFeed } from '@/lib/features/feeds/verbs/read-feed';
import { calendarToken } from '@/lib/features/links/reads/link-token';
import { useDatabase } from '@/tests/support/database';
import { customerRow, haveOneUnit, kitchenRow, personRow, visitRow, visitTaskRow } from '@/tests/support/factories';

const database = useDatabase();
const now = new Date('2026-11-27T17:00:00Z');
const DAY = 86_400_000;
const ago = (days: number) => new Date(now.getTime() - days * DAY);
const ctx = () => ({ db: database.db, now, baseUrl: 'https://shop.example' });
const tokenOf = (address: string) => address.split('/').at(-1) ?? '';
let have: Awaited<ReturnType<typeof haveOneUnit>>;

type Event = { start: string; summary: string; description: string; location: string; status: string; sequence: number };
async function read(token: string, at = now): Promise<{ name: string; events: Event[] }> {
  const calendar = new ICAL.Component(ICAL.parse(await readFeed({ db: database.db, now: at }, token)));
  const text = (e: ICAL.Component, name: string) => String(e.getFirstPropertyValue(name) ?? '');
  return {
    // The reader does not know this property’s type, and leaves its text as RFC 5545 3.3.11 writes it.
    name: String(calendar.getFirstPropertyValue('name')).replaceAll(String.raw`\,`, ','),
    events: calendar.getAllSubcomponents('vevent').map((e) => ({
      ...{ start: text(e, 'dtstart'), summary: text(e, 'summary'), description: text(e, 'description') },
      ...{ location: text(e, 'location'), status: text(e, 'status'), sequence: Number(text(e, 'sequence')) },
    })),
  };
}

beforeAll(async () => {
  have = await haveOneUnit(database.db, {
    kitchen: { name: 'Dock Street', address: '14 Heron Wharf' },
    unit: { name: 'Fry freezer' },
    person: { name: 'Tova Lind' },
  });
  await database.db.customer.update({ where: { id: have.customer.id }, data: { name: 'Fry House' } });
});
beforeEach(async () => {
  await database.db.calendarFeed.deleteMany();
  await database.db.visit.deleteMany();
});
const visit = (startsAt: Date, over: Parameters<typeof visitRow>[4] = {}) =>
  database.db.visit.create({ data: visitRow(have.kitchen.id, have.person.id, startsAt, 60, over) });

describe('a calendar', () => {
  it('of a technician names the kitchens, what is to be done there and where, in order of time', async () => {
    const later = await visit(new Date('2026-12-01T16:00:00Z'), { sequence: 2 });
    for (const t of have.tasks.toReversed()) await database.db.visitTask.create({ data: visitTaskRow(later.id, t) });
    await visit(new Date('2026-11-30T16:00:00Z'), { status: 'cancelled', cancelReason: 'Closed' });
    const other = await database.db.user.create({ data: personRow() });
    await database.db.visit.create({ data: visitRow(have.kitchen.id, other.id, new Date('2026-12-02T16:00:00Z'), 60) });
    const { name, events } = await read(tokenOf(await createFeed(ctx(), { userId: have.person.id })));
    expect(name).toBe('Tova Lind, visits');
    expect(events.map((e) => [e.start, e.summary, e.location, e.status, e.sequence])).toEqual([
      ['2026-11-30T16:00:00Z', 'Fry House, Dock Street', '14 Heron Wharf', 'CANCELLED', 0],
      ['2026-12-01T16:00:00Z', 'Fry House, Dock Street', '14 Heron Wharf', 'CONFIRMED', 2],
    ]);
    const lines = events[1]?.description.split('\n') ?? [];
    expect(lines).toHaveLength(3);
    expect(lines.every((l) => l.includes('Fry freezer'))).toBe(true);
    expect(lines).toEqual(lines.toSorted());
  });

  it('of a kitchen names who comes, in the customer’s language, and holds what is over for thirty days', async () => {
    const { db } = database;
    await visit(ago(30));
    await visit(new Date(ago(30).getTime() - 3_700_000));
    const token = tokenOf(await createFeed(ctx(), { kitchenId: have.kitchen.id }));
    const english = await read(token);
    expect(english.name).toBe('Dock Street, refrigeration visits');
    expect(english.events.map((e) => [e.start, e.summary])).toEqual([['2026-10-28T17:00:00Z', 'Refrigeration visit, Tova Lind']]);
    await db.customer.update({ where: { id: have.customer.id }, data: { language: 'es' } });
    const spanish = await read(token);
    expect(spanish.name).toContain('Dock Street');
    expect([spanish.name, spanish.events[0]?.summary]).not.toEqual([english.name, english.events[0]?.summary]);
    await db.customer.update({ where: { id: have.customer.id }, data: { language: 'en' } });
  });

  it('of a customer’s page is named by its one kitchen, or by the customer, whose kitchens then name the visits', async () => {
    const { db } = database;
    const customer = await db.customer.create({ data: customerRow({ name: 'Lantern' }) });
    const kitchens = [];
    for (const name of ['Quay', 'Lantern']) kitchens.push(await db.kitchen.create({ data: kitchenRow(customer.id, { name }) }));
    for (const [i, k] of kitchens.entries())
      await db.visit.create({ data: visitRow(k.id, have.person.id, new Date(now.getTime() + (i + 1) * DAY), 60) });
    const desk = await db.user.create({ data: personRow({ role: 'owner' }) });
    const page = async (over: { kitchenId?: string } = {}) => {
      const ask = { customerId: customer.id, holder: 'Rosa', toEmail: '', language: 'en' as const, answersQuotes: false, ...over };
      const { link } = await makePage({ ...ctx(), actor: { userId: desk.id } }, ask);
      return read(calendarToken(tokenOf(link)));
    };
    const one = await page({ kitchenId: kitchens[0]?.id });
    expect([one.name, one.events.map((e) => e.summary)]).toEqual(['Quay, refrigeration visits', ['Refrigeration visit, Tova Lind']]);
    const all = await page();
    // A kitchen that is called as its customer is named once.
    expect([all.name, all.events.map((e) => e.summary)]).toEqual(['Lantern, refrigeration visits', ['Lantern, Quay', 'Lantern']]);
  });

  it('ends with a kitchen that goes out of use, and is there again when it comes back', async () => {
    const token = tokenOf(await createFeed(ctx(), { kitchenId: have.kitchen.id }));
    const archived = (archivedAt: Date | null) => database.db.kitchen.update({ where: { id: have.kitchen.id }, data: { archivedAt } });
    await archived(now);
    await expect(read(token)).rejects.toMatchObject({ code: 'not_found', message: 'No calendar here.' });
    await archived(null);
    expect((await read(token)).name).toContain('Dock Street');
  });
});

describe('addresses', () => {
  it('are secret: what is on file opens nothing, and an address is the shop’s own with a token of its own', async () => {
    const address = await createFeed(ctx(), { userId: have.person.id });
    expect(address).toMatch(/^https:\/\/shop\.example\/api\/feeds\/[\w-]{43}$/);
    const [row] = await database.db.calendarFeed.findMany();
    expect(row).toMatchObject({ userId: have.person.id, kitchenId: null, createdAt: now, revokedAt: null });
    expect(JSON.stringify(row)).not.toContain(tokenOf(address));
    await expect(read(row?.tokenHash ?? '')).rejects.toMatchObject({ code: 'not_found' });
  });

  it('are made for whoever has none, by name, and who has a live one is told', async () => {
    const { db } = database;
    await db.user.updateMany({ data: { active: false } });
    const person = async (name: string, over = {}) => (await db.user.create({ data: personRow({ name, ...over }) })).id;
    const [zoe, ana] = [await person('Zoe'), await person('Ana')];
    await person('Gone', { active: false });
    await person('Desk', { role: 'dispatcher' });
    await createFeed(ctx(), { userId: zoe });
    const technicians = async () => (await calendarOwners(db)).technicians;
    expect(await technicians()).toEqual([{ id: ana, name: 'Ana', live: false }, { id: zoe, name: 'Zoe', live: true }]); // prettier-ignore
    const made = await createFeeds(ctx(), { whose: 'technicians' });
    expect(made).toEqual([{ name: 'Ana', address: expect.stringMatching(/feeds/) }]);
    expect((await read(tokenOf(made[0]?.address ?? ''))).name).toBe('Ana, visits');
    expect((await technicians()).map((t) => t.live)).toEqual([true, true]);
    await revokeFeeds(ctx(), { userId: ana });
    expect((await technicians()).map((t) => t.live)).toEqual([false, true]);
    expect(await db.calendarFeed.findMany({ where: { userId: ana } })).toMatchObject([{ revokedAt: now }]);
    await db.user.update({ where: { id: have.person.id }, data: { active: true } });
  });

  it('of kitchens are named with their customer, unless both are called the same', async () => {
    const { db } = database;
    await db.kitchen.updateMany({ data: { archivedAt: now } });
    await db.kitchen.update({ where: { id: have.kitchen.id }, data: { archivedAt: null } });
    const customer = await db.customer.create({ data: customerRow({ name: 'Alder' }) });
    await db.kitchen.create({ data: kitchenRow(customer.id, { name: 'Yard' }) });
    await db.kitchen.create({ data: kitchenRow(customer.id, { name: 'Alder' }) });
    const { kitchens } = await calendarOwners(db);
    expect(kitchens.map((k) => [k.customer, k.name, k.live])).toEqual([
      ['Alder', 'Alder', false],
      ['Alder', 'Yard', false],
      ['Fry House', 'Dock Street', false],
    ]);
    const made = await createFeeds(ctx(), { whose: 'kitchens' });
    expect(made.map((m) => m.name)).toEqual(['Alder', 'Alder, Yard', 'Fry House, Dock Street']);
    expect((await read(tokenOf(made[1]?.address ?? ''))).name).toBe('Yard, refrigeration visits');
    expect(await createFeeds(ctx(), { whose: 'kitchens' })).toEqual([]);
  });
});
