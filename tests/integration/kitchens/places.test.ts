import { createServer, type Server } from 'node:http';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { learntPlaces, lookups } from '@/lib/features/kitchens/reads/lookups';
import { forgetArrivals, takeLearnt, tellArrivals } from '@/lib/features/kitchens/verbs/arrivals';
import { askAddresses, takeTurn } from '@/lib/features/kitchens/verbs/ask-addresses';
import { acceptPlaces, findPlaces, queueLookups, refusePlace, stopLookups } from '@/lib/features/kitchens/verbs/look-up';
import { setPosition } from '@/lib/features/kitchens/verbs/set-position';
import type { Answer, Candidate } from '@/lib/core/position';
import { refusedBy } from '@/lib/database/constraints';
import { geocoder } from '@/lib/server/position/place-finder';
import { useDatabase } from '../../support/database';
import { haveOneUnit, kitchenRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const ctx = () => ({ db: database.db, actor: null, now });

// A stand-in on loopback that answers in the shape of Nominatim's documentation (API, Search, JSON with addressdetails).
const place = (lat: string, rank: number, house_number?: string) => ({
  lat,
  lon: '-105.0',
  display_name: `${house_number ?? ''} Somewhere`,
  place_rank: rank,
  importance: 0.1,
  boundingbox: ['39.70', '39.71', '-105.01', '-105.0'],
  address: house_number ? { house_number } : {},
});
const PLACES: Record<string, object[]> = {
  '12 Alder Street': [place('39.7', 30, '12')],
  '14 Alder Street': [place('39.7', 26)],
  'Nowhere at all': [],
};
let server: Server;
let url = '';
let asked: { q: string; agent: string; key: string | null }[] = [];
let broken = false;
beforeAll(async () => {
  server = createServer((request, reply) => {
    const to = new URL(request.url ?? '', 'http://x');
    asked.push({ q: to.searchParams.get('q') ?? '', agent: request.headers['user-agent'] ?? '', key: to.searchParams.get('key') });
    reply.statusCode = broken ? 503 : 200;
    reply.end(JSON.stringify(PLACES[to.searchParams.get('q') ?? ''] ?? []));
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const at = server.address();
  url = `http://127.0.0.1:${typeof at === 'object' && at ? at.port : 0}/search?key=k1`;
});
afterAll(() => new Promise((done) => server.close(done)));

let at = now.getTime();
/** A clock that only waiting moves on. */
const pace = { clock: () => new Date(at), wait: (ms: number) => Promise.resolve(void (at += ms)) };
const run = (most = 50) => askAddresses(database.db, geocoder({ url, from: 'https://shop.example' }), pace, most);

let customerId = '';
let person = '';
const kitchen = (name: string, address: string, over: object = {}) =>
  database.db.kitchen.create({ data: kitchenRow(customerId, { name, address, lat: null, lng: null, ...over }) });
beforeAll(async () => {
  const one = await haveOneUnit(database.db);
  customerId = one.customer.id;
  person = one.person.id;
});
beforeEach(() => {
  asked = [];
  broken = false;
  at += 10_000;
});

describe('addresses asked in bulk', () => {
  it('are asked one a second, go on after a service that was away, and are accepted by a person', async () => {
    const [fits, street, none] = [
      await kitchen('Fits', '12 Alder Street'),
      await kitchen('Street', '14 Alder Street'),
      await kitchen('None', 'Nowhere at all'),
    ];
    expect(await queueLookups(ctx())).toBe(3);
    expect(await queueLookups(ctx())).toBe(0);
    broken = true;
    expect(await run()).toBe(false);
    expect(asked).toHaveLength(1);
    expect(await lookups(database.db, 10)).toMatchObject({ waiting: 3, problem: 'It answered 503.' });

    broken = false;
    const begun = at;
    expect(await run(1)).toBe(true);
    expect(await run()).toBe(false);
    expect(asked).toHaveLength(4);
    // Four turns in all, the first of them taken before: three whole seconds at least.
    expect(at - begun).toBeGreaterThanOrEqual(2800);
    expect(asked[1]).toMatchObject({ agent: 'Rimebook (https://shop.example)', key: 'k1' });

    const { found, unfound } = await lookups(database.db, 10);
    expect(found.map((f) => [f.id, f.judged.confidence])).toEqual(
      expect.arrayContaining([
        [fits.id, 'fits'],
        [street.id, 'look'],
      ]),
    );
    expect(unfound).toMatchObject([{ id: none.id, problem: 'The service knows no such place.' }]);
    // Half across the box the stand-in told: 0.01 degrees north (1111.95 m) and 0.01 × cos 39.705° east (855.4 m).
    expect(found[0]?.candidates[0]?.withinM).toBeCloseTo(Math.hypot(1111.95, 855.4) / 2, -1);

    // One is placed by hand meanwhile: it keeps that.
    await setPosition(ctx(), { kitchenId: street.id, text: '41, -87' });
    const both = [fits, street].map((k) => ({ kitchenId: k.id, index: 0 }));
    expect(await acceptPlaces(ctx(), both)).toBe(1);
    expect(await database.db.kitchen.findUnique({ where: { id: fits.id } })).toMatchObject({
      lat: 39.7,
      lng: -105,
      positionFrom: 'address',
    });
    expect(await database.db.kitchen.findUnique({ where: { id: street.id } })).toMatchObject({ lat: 41, positionFrom: 'hand' });
  });

  it('are told by customer and kitchen, once where both have one name; another minute takes up what a lost process left', async () => {
    const { db } = database;
    const [plain, twice] = [await kitchen('Plain', '12 Alder Street'), await kitchen('Alder Diner', '14 Alder Street')];
    await db.customer.update({ where: { id: customerId }, data: { name: 'Alder Diner' } });
    await queueLookups(ctx());
    // Somebody took both a moment ago, and is gone.
    await db.placeLookup.updateMany({ where: { status: 'waiting' }, data: { askedAt: new Date(at) } });
    const waits = await db.placeLookup.count({ where: { status: 'waiting' } });
    at += 50_000;
    expect(await run()).toBe(false);
    expect(await db.placeLookup.count({ where: { status: 'waiting' } })).toBe(waits);
    at += 11_000;
    await run();
    const { found, foundTotal } = await lookups(db, 10);
    expect(foundTotal).toBe(found.length);
    expect((await lookups(db, 1)).foundTotal).toBe(foundTotal);
    expect(found.find((f) => f.id === plain.id)?.name).toBe('Alder Diner, Plain');
    expect(found.find((f) => f.id === twice.id)?.name).toBe('Alder Diner');

    await refusePlace(ctx(), { kitchenId: plain.id });
    expect((await lookups(db, 10)).found.map((f) => f.id)).not.toContain(plain.id);
    const held = await kitchen('Held', '1 Mill Lane');
    await queueLookups(ctx());
    await stopLookups(ctx());
    expect(await db.placeLookup.findUnique({ where: { kitchenId: held.id } })).toBeNull();
    expect((await lookups(db, 10)).found.map((f) => f.id)).toContain(twice.id);
  });

  it('one by one while somebody waits: what was found, nothing, or why not', async () => {
    const find = (answer: Answer) => findPlaces(database.db, () => Promise.resolve(answer), pace, '12 Alder Street');
    const one: Candidate = { label: 'Somewhere', lat: 39.7, lng: -105, precision: 'house', houseNumber: '12', withinM: 10 };
    expect(await find({ is: 'found', candidates: [one] })).toEqual([one]);
    expect(await find({ is: 'nothing' })).toEqual([]);
    await expect(find({ is: 'failed', said: 'It answered 503.' })).rejects.toMatchObject({
      code: 'busy',
      message: 'The place-finding service did not help: It answered 503. Paste a position, or set a pin.',
    });
    // Whenever a turn comes, the list has taken it.
    const busy = {
      clock: pace.clock,
      wait: async (ms: number) => {
        await pace.wait(ms);
        await takeTurn(database.db, pace, 0);
      },
    };
    await takeTurn(database.db, pace, 5000);
    const waits = () => findPlaces(database.db, () => Promise.resolve({ is: 'nothing' }), busy, 'x');
    await expect(waits()).rejects.toMatchObject({
      code: 'busy',
      message: 'The service is busy with the list of addresses. Try again in a moment.',
    });
  });

  it('by hand need a kitchen that is in use, and say who set them', async () => {
    const k = await kitchen('Pinned', 'x');
    const as = { ...ctx(), actor: { userId: person } };
    await setPosition(as, { kitchenId: k.id, text: '41.5, -87.25' });
    expect(await database.db.auditEntry.findFirst({ where: { entityId: k.id } })).toMatchObject({
      ...{ action: 'kitchen.position', entity: 'Kitchen', userId: person, detail: { lat: 41.5, lng: -87.25 } },
    });
    await expect(setPosition(as, { kitchenId: k.id, text: ' ' })).rejects.toMatchObject({
      code: 'invalid',
      message: 'Paste a position first.',
      field: 'text',
    });
    await database.db.kitchen.update({ where: { id: k.id }, data: { archivedAt: now } });
    await expect(setPosition(as, { kitchenId: k.id, text: '41, -87' })).rejects.toMatchObject({
      code: 'not_found',
      message: 'That kitchen is not on file.',
    });
  });

  it('never write over what a person has set: the database refuses it', async () => {
    const k = await kitchen('By hand', 'x', { lat: 40, lng: -100 });
    const error: unknown = await database.db.kitchen.update({ where: { id: k.id }, data: { lat: 41, positionFrom: 'address' } }).then(
      () => null,
      (e: unknown) => e,
    );
    expect(refusedBy(error)).toBe('kitchen_hand_position_stands');
  });
});

describe('arrivals', () => {
  const fix = (visitId: string, lat: number, accuracyM = 10, when = now) => ({
    id: crypto.randomUUID(),
    visitId,
    lat,
    lng: -105,
    accuracyM,
    at: when.toISOString(),
  });
  let hour = 0;
  const visitAt = (kitchenId: string, technicianId = person) =>
    database.db.visit.create({
      data: {
        kitchenId,
        technicianId,
        status: 'started',
        startsAt: new Date(now.getTime() + hour * 3_600_000),
        endsAt: new Date(now.getTime() + ++hour * 3_600_000),
      },
    });
  const tell = (fixes: ReturnType<typeof fix>[], allow?: boolean) =>
    tellArrivals({ db: database.db, actor: { userId: person }, now }, allow === undefined ? { fixes } : { allow, fixes });

  it('are kept only with leave, only of one’s own visits, and only where they are exact', async () => {
    const k = await kitchen('Leave', 'x');
    const visit = await visitAt(k.id);
    await tell([fix(visit.id, 39.5)]);
    expect(await database.db.arrivalFix.count()).toBe(0);
    await tell([fix(visit.id, 39.5), fix(visit.id, 39.5, 900), fix(crypto.randomUUID(), 39.5)], true);
    expect(await database.db.arrivalFix.findMany()).toMatchObject([{ kitchenId: k.id, lat: 39.5, accuracyM: 10 }]);
    await tell([fix(visit.id, 39.5)], false);
    expect(await database.db.arrivalFix.count()).toBe(1);
    expect(await forgetArrivals({ db: database.db, now: new Date(now.getTime() + 91 * 86_400_000) })).toBe(1);
  });

  it('give a kitchen its position once three are there, tell of one far off, and are deleted when they have served', async () => {
    const lost = await kitchen('Lost', 'x');
    const far = await kitchen('Far', 'x', { lat: 39.6, lng: -105 });
    const right = await kitchen('Right', 'x', { lat: 39.5, lng: -105 });
    for (const k of [lost, far, right]) {
      const visit = await visitAt(k.id);
      await tell([fix(visit.id, 39.5), fix(visit.id, 39.5001), fix(visit.id, 39.5002)], true);
    }
    // What only confirms is gone already.
    expect(await database.db.arrivalFix.count({ where: { kitchenId: right.id } })).toBe(0);
    const places = await learntPlaces(database.db);
    expect(places.map((p) => [p.id, p.apartM === null ? null : Math.round(p.apartM / 100)])).toEqual(
      expect.arrayContaining([
        [lost.id, null],
        // 0.0999 degrees of latitude, 111.195 km each.
        [far.id, 111],
      ]),
    );
    await takeLearnt(ctx(), { kitchenId: lost.id });
    await takeLearnt(ctx(), { kitchenId: far.id });
    expect(await database.db.kitchen.findUnique({ where: { id: lost.id } })).toMatchObject({ lat: 39.5001, positionFrom: 'arrivals' });
    expect(await database.db.kitchen.findUnique({ where: { id: far.id } })).toMatchObject({ lat: 39.5001, positionFrom: 'hand' });
    expect(await database.db.arrivalFix.count()).toBe(0);
  });
});
