import sharp from 'sharp';
import { beforeEach, describe, expect, it } from 'vitest';
import { firstDay } from '@/lib/features/shop/reads/first-day';
import { officeFrame } from '@/lib/features/shop/reads/frame';
import { cleaningPrices, costsOf, costsSet, hasLogo, overdueLimit, shopSettings } from '@/lib/features/shop/reads/settings';
import { customersUnits, shopDistance, shopHabits, shopPosition, shopRoad, shopTimeZone } from '@/lib/features/shop/reads/shop';
import { priced } from '@/lib/features/shop/reads/energy-price';
import { editShop } from '@/lib/features/shop/verbs/edit-shop';
import { setCosts } from '@/lib/features/shop/verbs/set-costs';
import { setReportLook } from '@/lib/features/shop/verbs/set-report-look';
import { setWeeklyLetter } from '@/lib/features/shop/verbs/set-weekly-letter';
import type { EditShop } from '@/lib/schemas/shop/shop';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow, visitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
let owner: { userId: string };
const ctx = () => ({ db: database.db, actor: owner, now });
const kept = () => database.db.shopSettings.findUniqueOrThrow({ where: { id: 1 } });
const seen = async () => (await kept()).updatedAt.toISOString();
/** What was noted in this test: by whom, of what, and the detail. */
const noted = async () =>
  (await database.db.auditEntry.findMany({ where: { userId: owner.userId }, orderBy: { id: 'asc' } })).map((a) => {
    expect(a).toMatchObject({ entity: 'ShopSettings', entityId: '1', at: now });
    return [a.action, a.detail];
  });
const costs = { labourPerHour: 95, vehiclePerKm: 0.6, cleaningCost: 140, inspectionCost: 60, failureCost: 2400, energyPricePerKwh: 0.19 };
const shop: Omit<EditShop, 'seen'> = {
  ...{ name: 'Test shop', timeZone: 'America/Denver', currency: 'USD', phone: '', email: '', lat: null, lng: null },
  ...{ overdueLimitDays: 14, overShiftMinutes: 0, remindDayBefore: false, circuity: 1.3, speedKmh: 35, region: 'us', dates: 'month_first' },
};

beforeEach(async () => {
  const { db } = database;
  await db.shopSettings.deleteMany();
  await db.shopSettings.create({ data: { id: 1, ...shop, policy: { riskPerWeek: 0.05 }, reportWords: 'Ring us.' } });
  owner = { userId: (await db.user.create({ data: personRow({ name: 'Maren Oake', role: 'owner', active: false }) })).id };
});

describe('the shop’s settings', () => {
  it('are changed field by field: what differs is noted as it was and as it is, the rest stays', async () => {
    await editShop(ctx(), { ...shop, seen: await seen(), phone: '555 0100', overdueLimitDays: 7, region: 'ie', lat: 53.3, lng: -6.2 });
    expect(await kept()).toMatchObject({ phone: '555 0100', overdueLimitDays: 7, region: 'ie', reportWords: 'Ring us.' });
    expect(await noted()).toEqual([
      ['shop.edited', { v: 1, changed: { phone: ['', '555 0100'], overdueLimitDays: [14, 7], region: ['us', 'ie'], lat: [null, 53.3], lng: [null, -6.2] } }],
    ]); // prettier-ignore
  });

  it('are refused to whoever opened them before another’s change, and the other is named', async () => {
    const before = await seen();
    await editShop(ctx(), { ...shop, seen: before, phone: '555 0100' });
    const refused = { code: 'conflict', message: expect.stringMatching(/^Maren Oake changed the shop’s settings while .* \(phone\)/i) };
    await expect(editShop(ctx(), { ...shop, seen: before, phone: '555 0199' })).rejects.toMatchObject(refused);
    await expect(setCosts(ctx(), { ...costs, seen: before })).rejects.toMatchObject(refused);
    await expect(setReportLook(ctx(), { seen: before, reportWords: 'New' })).rejects.toMatchObject(refused);
    expect(await kept()).toMatchObject({ phone: '555 0100', labourPerHour: null, reportWords: 'Ring us.' });
    expect(await noted()).toHaveLength(1);
  });

  it('do not exist before the shop is set up, and whoever asks is told so', async () => {
    await database.db.shopSettings.deleteMany();
    const missing = { code: 'not_found', message: 'The shop is not set up yet.' };
    await expect(editShop(ctx(), { ...shop, seen: '' })).rejects.toMatchObject(missing);
    await expect(setCosts(ctx(), { ...costs, seen: '' })).rejects.toMatchObject(missing);
    await expect(setReportLook(ctx(), { seen: '', reportWords: '' })).rejects.toMatchObject(missing);
    const { db } = database;
    expect(await shopSettings(db)).toBeNull();
    expect([await shopTimeZone(db), await shopRoad(db), await shopDistance(db), await shopPosition(db), await shopHabits(db)]).toEqual([
      'UTC',
      { circuity: 1.3, speedKmh: 35 },
      'mi',
      null,
      {},
    ]);
    expect([await hasLogo(db), await overdueLimit(db)]).toEqual([false, 14]);
  });

  it('say where the shop stands, how its vans get about, and what its customers read in', async () => {
    const { db } = database;
    await editShop(ctx(), {
      ...shop,
      seen: await seen(),
      lat: 53.3,
      lng: -6.2,
      region: 'ie',
      circuity: 1.5,
      speedKmh: 28,
      overdueLimitDays: 3,
    });
    expect(await shopPosition(db)).toEqual({ lat: 53.3, lng: -6.2 });
    expect(await shopRoad(db)).toEqual({ circuity: 1.5, speedKmh: 28 });
    expect([await shopTimeZone(db), await shopDistance(db), await overdueLimit(db)]).toEqual(['America/Denver', 'km', 3]);
    expect(await customersUnits(db)).toMatchObject({ temperature: 'C', mass: 'g' });
    expect(await shopSettings(db)).not.toHaveProperty('logoPng');
  });

  it('turn the owners’ letter off and on, and say who did', async () => {
    await setWeeklyLetter(ctx(), { weeklyLetter: false });
    expect((await kept()).weeklyLetter).toBe(false);
    expect(await noted()).toEqual([['shop.weekly_letter', { v: 1, changed: { weeklyLetter: false } }]]);
  });
});

describe('what things cost the shop', () => {
  it('is kept beside the rest of its policy, and noted', async () => {
    await setCosts(ctx(), { ...costs, seen: await seen() });
    const after = await kept();
    expect(costsOf(after)).toEqual(costs);
    expect(after.policy).toMatchObject({ riskPerWeek: 0.05 });
    expect(await noted()).toEqual([['shop.costs', { v: 1, ...costs }]]);
    expect(cleaningPrices(after)).toEqual({ cleaningCost: 140, failureCost: 2400 });
    expect(costsSet(after)).toBe(true);
  });

  it('is said only once all of it was: a part of it prices nothing', async () => {
    const before = await kept();
    expect([costsSet(null), costsSet(before), cleaningPrices(before)]).toEqual([false, false, null]);
    expect(Object.values(costsOf(before))).toEqual([null, null, null, null, null, null]);
    for (const half of [{ cleaningCost: 140 }, { failureCost: 2400 }]) expect(cleaningPrices({ ...before, policy: half })).toBeNull();
    const all = { ...before, labourPerHour: 95, vehiclePerKm: 0.6, policy: { cleaningCost: 140, failureCost: 2400 } };
    expect(costsSet(all)).toBe(true);
    for (const lacking of [
      { labourPerHour: null },
      { vehiclePerKm: null },
      { policy: { cleaningCost: 1 } },
      { policy: { failureCost: 1 } },
    ])
      expect(costsSet({ ...all, ...lacking }), JSON.stringify(lacking)).toBe(false);
  });

  it('of energy is the kitchen’s own where it has said it, nothing at all included, else the shop’s', () => {
    const at = (energyPricePerKwh: number | null) => ({ energyPricePerKwh });
    expect(priced(at(0), at(0.19))).toEqual(at(0));
    expect(priced(at(null), at(0.19))).toEqual(at(0.19));
    expect(priced(at(null), null)).toEqual(at(null));
  });
});

describe('what stands on reports', () => {
  const file = (bytes: Uint8Array<ArrayBuffer>) => new File([bytes], 'mark');
  const picture = async (format: 'png' | 'jpeg' | 'gif', width: number) =>
    file(
      new Uint8Array(
        await sharp({ create: { width, height: 100, channels: 3, background: '#a33' } })
          .toFormat(format)
          .toBuffer(),
      ),
    );

  it('is the shop’s words and its mark, made anew no larger than a report holds; it stays until it is taken off', async () => {
    await setReportLook(ctx(), { seen: await seen(), reportWords: 'New words', logo: await picture('jpeg', 1600) });
    const { logoPng, reportWords } = await kept();
    expect(reportWords).toBe('New words');
    expect(await sharp(logoPng ?? Buffer.alloc(0)).metadata()).toMatchObject({ format: 'png', width: 800, height: 50 });
    expect(await hasLogo(database.db)).toBe(true);
    // Words alone, and a form without a file, leave the mark where it is.
    await setReportLook(ctx(), { seen: await seen(), reportWords: 'Other', logo: file(new Uint8Array()) });
    expect((await kept()).logoPng).toEqual(logoPng);
    await setReportLook(ctx(), { seen: await seen(), reportWords: 'Other', removeLogo: 'on' });
    expect(await hasLogo(database.db)).toBe(false);
    expect((await noted()).map(([action]) => action)).toEqual(Array.from({ length: 3 }, () => 'shop.report_look'));
    await setReportLook(ctx(), { seen: await seen(), reportWords: 'Other', logo: await picture('png', 300) });
    expect(await sharp((await kept()).logoPng ?? Buffer.alloc(0)).metadata()).toMatchObject({ width: 300, height: 100 });
  });

  it('is no file that is not a picture of the three kinds, and nothing is kept of it', async () => {
    for (const logo of [file(new TextEncoder().encode('not a picture')), await picture('gif', 100)])
      await expect(setReportLook(ctx(), { seen: await seen(), reportWords: 'New', logo })).rejects.toMatchObject({
        code: 'invalid',
        field: 'logo',
        message: 'That is not a PNG, JPEG or WebP picture.',
      });
    expect(await kept()).toMatchObject({ reportWords: 'Ring us.', logoPng: null });
  });
});

describe('the first day', () => {
  it('has its steps done one by one, and is gone with the first visit', async () => {
    const { db } = database;
    const done = async () => (await firstDay(db))?.map((s) => (s.done ? s.key : '')).filter(Boolean);
    const text = async (key: string) => (await firstDay(db))?.find((s) => s.key === key)?.text;
    expect(await done()).toEqual([]);
    expect(await text('costs')).toContain('a mile,');
    await editShop(ctx(), { ...shop, seen: await seen(), lat: 53.3, lng: -6.2, region: 'ie' });
    expect(await done()).toEqual(['shop']);
    expect(await text('costs')).toContain('a kilometre,');
    await setCosts(ctx(), { ...costs, seen: await seen() });
    expect(await done()).toEqual(['shop', 'costs']);
    await db.shopSettings.update({ where: { id: 1 }, data: { energyPricePerKwh: null } });
    expect(await done()).toEqual(['shop']);

    // An owner who drives, too, is somebody who can be planned for.
    const owner = await db.user.create({ data: personRow({ role: 'owner', shifts: [{ weekday: 0, from: '07:00', to: '16:00' }] }) });
    expect(await done()).toEqual(['shop']);
    await db.user.update({ where: { id: owner.id }, data: { alsoVisits: true } });
    expect(await done()).toEqual(['shop', 'people']);
    await db.user.update({ where: { id: owner.id }, data: { alsoVisits: false } });
    const tova = await db.user.create({ data: personRow({ name: 'Tova Lind', shifts: [] }) });
    expect([await done(), await text('people')]).toEqual([['shop'], 'Tova Lind: no shift yet.']);
    await db.user.update({ where: { id: tova.id }, data: { shifts: [{ weekday: 0, from: '07:00', to: '16:00' }] } });
    expect(await done()).toEqual(['shop', 'people']);

    const made = await haveOneUnit(db, { kitchen: { lat: null, lng: null } });
    await haveOneUnit(db, { kitchen: { archivedAt: now }, unit: { archivedAt: now } });
    expect([await done(), await text('fleet')]).toEqual([['shop', 'people', 'fleet'], '1 unit in 1 kitchen.']);
    expect(await text('positions')).toBe('1 kitchen without a position yet; drives there are guessed meanwhile.');
    await db.kitchen.update({ where: { id: made.kitchen.id }, data: { lat: 53.4, lng: -6.3 } });
    expect(await done()).toEqual(['shop', 'people', 'fleet', 'positions']);

    expect(await officeFrame(db, now)).toEqual({ firstDay: true, asked: 0, waiting: 0 });
    await db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, now, 60) });
    expect(await firstDay(db)).toBeNull();
    expect((await officeFrame(db, now)).firstDay).toBe(false);
  });
});
