import { randomUUID } from 'node:crypto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Payloads } from '@/lib/core/tablet';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import { STORED_QUOTE } from '@/lib/database/stored/quotes';
import { useDatabase } from '../../support/database';
import { jobRow, personRow, unitRow } from '../../support/factories';
import { haveVisit, MORNING, Tablet } from './a-tablet';

const database = useDatabase();
type Step = Payloads['sealed.step'];
const DAY = 86_400_000;
const minutes = (n: number) => new Date(MORNING.getTime() + n * 60_000);
let shop: Awaited<ReturnType<typeof haveVisit>>;
let certificate: { id: string };
let cylinder: { id: string };
let recordId: string;
let tablet: Tablet;

beforeEach(async () => {
  const { db } = database;
  shop = await haveVisit(db);
  await db.user.update({ where: { id: shop.person.id }, data: { name: 'Tova Lind' } });
  certificate = await db.certificate.create({ data: { userId: shop.person.id, kind: 'us_608_universal', number: 'U-17' } });
  cylinder = await db.cylinder.create({
    data: {
      label: `C-${randomUUID().slice(0, 6)}`,
      refrigerant: shop.unit.refrigerant,
      contents: 'new',
      tareKg: 5,
      firstKg: 8,
      mostKg: 11.34,
    },
  });
  recordId = randomUUID();
  tablet = new Tablet(db, { id: shop.person.id, name: 'Tova Lind' });
});

const step = (p: Partial<Step> & Pick<Step, 'step' | 'work'>): Step => ({
  ...{ recordId, unitId: shop.unit.id, skippedWhy: '', certificateId: certificate.id, overruledBy: '', overruledWhy: '', note: '' },
  ...p,
});
const charge = (startKg: number, endKg: number, more: Partial<Step> = {}) =>
  step({
    step: 'charge',
    work: {
      step: 'charge',
      cylinderId: cylinder.id,
      cylinderWords: '',
      startKg,
      endKg,
      plateKg: 0.24,
      targetKg: 0.25,
      band: [0.245, 0.255],
    },
    ...more,
  });
const isolate = (more: Partial<Step> = {}) =>
  step({ step: 'isolate', work: { step: 'isolate', provenDead: true, flammable: null }, ...more });
async function enter(payload: Step, by = tablet, at = 5) {
  const entry = by.make(shop.visit.id, 'sealed.step', payload, { madeAt: minutes(at).toISOString() });
  return { id: entry.id, answer: (await by.send([entry], minutes(at + 10))).results[0] };
}
const booked = async () =>
  (await database.db.cylinderEntry.findMany({ where: { cylinderId: cylinder.id }, orderBy: { at: 'asc' } })).map((e) =>
    Math.round(e.kg * 1000),
  );

describe('a step on refrigerant', () => {
  it('is refused in words with another’s certificate, one withdrawn, or none', async () => {
    const { db } = database;
    const other = await db.user.create({ data: personRow() });
    const theirs = await db.certificate.create({ data: { userId: other.id, kind: 'us_608_universal', number: 'U-18' } });
    expect((await enter(charge(13, 12.75, { certificateId: theirs.id }))).answer).toMatchObject({
      ...{ outcome: 'rejected', note: expect.stringMatching(/^The certificate named at “.+” is not Tova Lind’s\.$/) },
    });
    expect((await enter(charge(13, 12.75, { certificateId: null }))).answer?.note).toMatch(
      /^“.+” touches refrigerant: it needs a certificate, or the name of who answers for it and why\.$/,
    );
    // A name without a reason answers for nothing.
    expect((await enter(charge(13, 12.75, { certificateId: null, overruledBy: 'R. Boss' }))).answer?.outcome).toBe('rejected');
    await db.certificate.update({ where: { id: certificate.id }, data: { withdrawnAt: minutes(-1) } });
    expect((await enter(charge(13, 12.75))).answer?.note).toMatch(
      /of Tova Lind did not hold on that day\. Somebody has to answer for “.+” by name\.$/,
    );
    expect(await booked()).toEqual([]);
    // Taken away afterwards, it held when the step was made.
    await db.certificate.update({ where: { id: certificate.id }, data: { withdrawnAt: minutes(60) } });
    expect((await enter(charge(13, 12.75))).answer).toMatchObject({ outcome: 'applied', note: '' });
    expect(await booked()).toEqual([-250]);
  });

  it('holds on the last day of its certificate, by the kitchen’s calendar', async () => {
    const { db } = database;
    await db.certificate.update({ where: { id: certificate.id }, data: { expiresOn: new Date('2026-11-25') } });
    expect((await enter(charge(13, 12.75))).answer?.outcome).toBe('applied');
    await db.certificate.update({ where: { id: certificate.id }, data: { expiresOn: new Date('2026-11-24') } });
    expect((await enter(charge(13, 12.7))).answer?.outcome).toBe('rejected');
  });
});

describe('a repair record', () => {
  it('is of one unit; said of another, the step is refused', async () => {
    const other = await database.db.unit.create({ data: unitRow(shop.kitchen.id, { name: 'Other' }) });
    await enter(isolate());
    expect((await enter(isolate({ unitId: other.id }))).answer).toMatchObject({
      outcome: 'rejected',
      note: 'That repair record is of Reach-in.',
    });
    expect(await database.db.sealedRecord.findUniqueOrThrow({ where: { id: recordId } })).toMatchObject({
      ...{ unitId: shop.unit.id, begunAt: minutes(5), jobId: null },
    });
  });

  it('written on two tablets: the later made entry stands, its weight alone is in the book, and both hear of it', async () => {
    const second = new Tablet(database.db, tablet.person);
    await enter(charge(13, 12.75), tablet, 9);
    const early = await enter(charge(13, 12.6), second, 5);
    expect(early.answer).toMatchObject({
      ...{
        outcome: 'conflict',
        note: expect.stringMatching(/^Two tablets say what was done at “.+” of Reach-in\. The later made entry stands\.$/),
      },
    });
    expect(await booked()).toEqual([-250]);
    const rows = await database.db.sealedStep.findMany({ where: { recordId }, orderBy: { at: 'asc' } });
    expect(rows.map((r) => [r.id === early.id, r.supersededAt !== null])).toEqual([
      [true, true],
      [false, false],
    ]);
    // One tablet that says it anew asks nobody.
    expect((await enter(charge(13, 12.7), tablet, 12)).answer).toMatchObject({ outcome: 'applied', note: '' });
  });

  it('is the work of the most urgent job of the visit that names its unit, once known', async () => {
    const { db } = database;
    const other = await db.unit.create({ data: unitRow(shop.kitchen.id, { name: 'Other' }) });
    const job = (unit: { id: string; kitchenId: string }, urgency: 'now' | 'today' | 'week', over = {}) =>
      db.job.create({ data: jobRow(unit, { urgency, state: 'booked', visitId: shop.visit.id, ...over }) });
    await enter(isolate());
    const jobOf = async (id = recordId) => (await db.sealedRecord.findUniqueOrThrow({ where: { id } })).jobId;
    expect(await jobOf()).toBeNull();
    await job(other, 'now');
    await job(shop.unit, 'now', { visitId: null, state: 'asked' });
    await job(shop.unit, 'week');
    const urgent = await job(shop.unit, 'today');
    await enter(step({ step: 'open', work: { step: 'open', how: 'cut' } }));
    expect(await jobOf()).toBe(urgent.id);
    await job(shop.unit, 'now');
    await enter(isolate({ note: 'Again' }));
    expect(await jobOf()).toBe(urgent.id);
  });
});

describe('a job that a tablet is given', () => {
  it('brings the parts that its quote counts on, as the list has them', async () => {
    const { db } = database;
    const part = await db.part.create({ data: { number: 'FM-9', name: 'Fan motor', priceCents: 5000 } });
    const job = await db.job.create({
      data: jobRow(shop.unit, { what: 'Fan', state: 'booked', visitId: shop.visit.id, urgency: 'today' }),
    });
    const line = (kind: 'part' | 'labour', what: string, partNumber: string) =>
      ({ kind, what, partNumber, quantity: 2, unit: '', priceCents: 5000, taxed: true }) as const;
    const lines = [line('part', 'Fan motor', 'FM-9'), line('part', 'Clip', ''), line('part', 'Odd', 'ZZ-1'), line('labour', 'Work', '')];
    const given = async () => (await visitsOnFile(db, [shop.visit.id], null))[0]?.jobs?.find((j) => j.id === job.id);
    expect(await given()).toMatchObject({ what: 'Fan', urgency: 'today', booked: true, unitIds: [shop.unit.id] });
    expect(await given()).not.toHaveProperty('parts');
    const quote = (version: number, over: object) =>
      db.quote.create({
        data: {
          ...{ jobId: job.id, version, lines: STORED_QUOTE.write({ lines }), netCents: 1, taxCents: 0, totalCents: 1, currency: 'USD' },
          ...{ validUntil: new Date('2026-12-31'), reason: 'Worn', ...over },
        },
      });
    // One that was not sent, or was declined, is nothing to bring parts for.
    await quote(1, {});
    await quote(2, { sentAt: new Date(MORNING.getTime() - DAY), answer: 'declined', answeredAt: MORNING, answeredBy: 'Ilse' });
    expect(await given()).not.toHaveProperty('parts');
    await quote(3, { sentAt: new Date(MORNING.getTime() - DAY) });
    expect((await given())?.parts).toEqual([
      { partId: part.id, number: 'FM-9', what: 'Fan motor', quantity: 2 },
      { partId: null, number: '', what: 'Clip', quantity: 2 },
      { partId: null, number: 'ZZ-1', what: 'Odd', quantity: 2 },
    ]);
  });
});
