import { beforeAll, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import type { CylinderWay } from '@/lib/core/refrigerant-book';
import { cylinders, cylinderWithEntries, yearOfBook, yearsOfBook } from '@/lib/features/refrigerant-book/reads/book';
import { certificatesOf, handlingOf } from '@/lib/features/refrigerant-book/reads/handling';
import { certificatesInUse, technicians } from '@/lib/features/refrigerant-book/reads/people';
import { addCertificate, withdrawCertificate } from '@/lib/features/refrigerant-book/verbs/certificates';
import { addCylinder, cylinderGone, enterWeighing, placeCylinder, takeEntryBack } from '@/lib/features/refrigerant-book/verbs/cylinders';
import { exportBook } from '@/lib/features/refrigerant-book/verbs/export-book';
import { setLeakRules } from '@/lib/features/refrigerant-book/verbs/leaks';
import { NewCylinderEntry } from '@/lib/schemas/equipment/refrigerant-book';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow } from '../../support/factories';

const database = useDatabase();
const ZONE = 'America/Denver';
// Four in the afternoon of the second of March in Denver.
const now = new Date('2026-03-02T23:00:00Z');
const TODAY = localDate('2026-03-02');
let on: Awaited<ReturnType<typeof haveOneUnit>>;
let certificateId = '';

const ctx = (at = now) => ({ db: database.db, now: at, actor: { userId: on.person.id } });
let labels = 0;
async function haveCylinder(over: object = {}): Promise<string> {
  const row = {
    tare: 5,
    gross: 15,
    most: 12,
    note: '',
    withUserId: null,
    label: `C-${++labels}`,
    refrigerant: 'R134a',
    contents: 'new' as const,
  };
  return (await addCylinder(ctx(), { ...row, ...over })).id;
}
const line = (cylinderId: string, way: CylinderWay, over: Partial<NewCylinderEntry> = {}): NewCylinderEntry => ({
  cylinderId, way, kg: 1, gross: null, unitTag: on.unit.tag, recoveredFor: null, certificateId, overruledBy: '', overruledWhy: '', on: TODAY, note: '', ...over,
}); // prettier-ignore
const linesOf = async (cylinderId: string) => (await cylinderWithEntries(database.db, cylinderId, ZONE))?.entries ?? [];
const bookKg = async (id: string) => (await cylinders(database.db, ZONE)).find((c) => c.id === id)?.bookKg;
const written = (entityId: string) =>
  database.db.auditEntry.findMany({
    where: { entityId },
    orderBy: { id: 'asc' },
    select: { action: true, userId: true, at: true, detail: true },
  });

beforeAll(async () => {
  on = await haveOneUnit(database.db, { unit: { tag: 'WALK-1', name: 'Walk-in', refrigerant: 'R134a' }, person: { name: 'Nell Ash' } });
  await addCertificate(ctx(), { userId: on.person.id, kind: 'us_608_type_2', number: 'N-1', expiresOn: localDate('2026-01-31') });
  certificateId = (await database.db.certificate.findFirstOrThrow()).id;
});

describe('a cylinder', () => {
  it('holds at first what it weighs above empty; its label is its own', async () => {
    const id = await haveCylinder({ label: 'RED 7', gross: 14.5 });
    expect((await cylinders(database.db, ZONE)).find((c) => c.id === id)).toMatchObject({
      label: 'RED 7', firstKg: 9.5, bookKg: 9.5, tareKg: 5, mostKg: 12, where: null, differenceKg: null, weighedAt: null, verdict: 'not_weighed', createdAt: now,
    }); // prettier-ignore
    expect(await written(id)).toMatchObject([
      { action: 'cylinder.added', userId: on.person.id, at: now, detail: { label: 'RED 7', firstKg: 9.5 } },
    ]);
    await expect(haveCylinder({ label: 'RED 7' })).rejects.toMatchObject({
      code: 'conflict',
      field: 'label',
      message: 'RED 7 is on file already.',
    });
    expect(await database.db.cylinder.count({ where: { label: 'RED 7' } })).toBe(1);
  });

  it('is judged by the last weighing: what was moved since says nothing of the scale', async () => {
    const id = await haveCylinder();
    await enterWeighing(ctx(), line(id, 'charged', { on: localDate('2026-02-10') }));
    await enterWeighing(ctx(), line(id, 'scale_check', { kg: null, gross: 14, on: localDate('2026-02-11') }));
    const shown = async () => (await cylinderWithEntries(database.db, id, ZONE))?.cylinder;
    expect(await shown()).toMatchObject({ bookKg: 9, differenceKg: 0, verdict: 'agrees', weighedAt: new Date('2026-02-11T19:00:00Z') });
    await enterWeighing(ctx(), line(id, 'charged', { kg: 2 }));
    expect(await shown()).toMatchObject({ bookKg: 7, differenceKg: 0, verdict: 'agrees' });
    await enterWeighing(ctx(new Date(now.getTime() + 60_000)), line(id, 'scale_check', { kg: null, gross: 11.5 }));
    expect(await shown()).toMatchObject({ bookKg: 7, differenceKg: -0.5, verdict: 'differs' });
    expect(await linesOf(id)).toHaveLength(4);
    expect((await linesOf(id)).map((e) => e.kg)).toEqual([0, -2, 0, -1]);
  });

  it('rides in a van and goes, each once, and only from the page as it stands', async () => {
    const id = await haveCylinder();
    await placeCylinder(ctx(), { id, version: 1, withUserId: on.person.id });
    await expect(placeCylinder(ctx(), { id, version: 1, withUserId: null })).rejects.toMatchObject({ code: 'conflict' });
    await expect(cylinderGone(ctx(), { id, version: 1, why: 'Sold' })).rejects.toMatchObject({ code: 'conflict' });
    expect((await cylinderWithEntries(database.db, id, ZONE))?.cylinder).toMatchObject({
      where: { name: 'Nell Ash' },
      goneAt: null,
      version: 2,
    });
    await cylinderGone(ctx(), { id, version: 2, why: 'Back to the dealer' });
    await expect(cylinderGone(ctx(), { id, version: 3, why: 'Again' })).rejects.toMatchObject({ code: 'conflict' });
    await expect(placeCylinder(ctx(), { id, version: 3, withUserId: null })).rejects.toMatchObject({ code: 'conflict' });
    expect((await written(id)).map((w) => w.action)).toEqual(['cylinder.added', 'cylinder.moved', 'cylinder.gone']);
    const late = line(id, 'bought', { on: TODAY });
    await expect(enterWeighing(ctx(new Date(now.getTime() + 60_000)), late)).rejects.toMatchObject({
      code: 'invalid', field: 'on', message: expect.stringMatching(/was gone by then: Back to the dealer$/),
    }); // prettier-ignore
    // What happened before it went can still be written down.
    await enterWeighing(ctx(), line(id, 'bought', { on: localDate('2026-02-20') }));
    expect(await bookKg(id)).toBe(11);
    // Those that are gone stand last.
    expect((await cylinders(database.db, ZONE)).at(-1)?.id).toBe(id);
  });

  it('is on the tablet of whom it rides with, or of all where it stands in the shop, with what is in it', async () => {
    const other = await database.db.user.create({ data: personRow() });
    const [mine, shelf, theirs, gone] = [
      await haveCylinder({ withUserId: on.person.id }),
      await haveCylinder(),
      await haveCylinder({ withUserId: other.id }),
      await haveCylinder(),
    ];
    await cylinderGone(ctx(), { id: gone, version: 1, why: 'Lost' });
    await enterWeighing(ctx(), line(shelf, 'to_reclaim', { kg: 4 }));
    const seen = (await handlingOf(database.db, on.person.id)).cylinders;
    const of = (id: string) => seen.find((c) => c.id === id);
    expect(of(mine)).toMatchObject({ mine: true, bookKg: 10 });
    expect(of(shelf)).toMatchObject({ mine: false, bookKg: 6 });
    expect([of(theirs), of(gone)]).toEqual([undefined, undefined]);
    expect(seen.map((c) => c.label)).toEqual(seen.map((c) => c.label).toSorted());
  });
});

describe('a line of the book by hand', () => {
  it('takes gas out or in as what happened says, on its day, with whose certificate it was', async () => {
    const id = await haveCylinder({ gross: 10 });
    await enterWeighing(ctx(), line(id, 'charged', { kg: 0.5, unitTag: 'walk-1', recoveredFor: 'reuse', note: 'After the leak' }));
    await enterWeighing(ctx(), line(id, 'recovered', { kg: 0.25, recoveredFor: 'reclaim', on: localDate('2026-02-27') }));
    await enterWeighing(ctx(), line(id, 'bought', { kg: 3 }));
    await enterWeighing(ctx(), line(id, 'to_destruction', { kg: 2 }));
    const lines = await linesOf(id);
    expect(await bookKg(id)).toBeCloseTo(5.75, 9);
    const by = (way: CylinderWay) => lines.find((e) => e.way === way);
    expect(by('charged')).toMatchObject({
      kg: -0.5, at: now, recoveredFor: null, note: 'After the leak', unit: { tag: 'WALK-1' }, certificate: { number: 'N-1' }, by: { name: 'Nell Ash' },
    }); // prettier-ignore
    // Of an earlier day no time is known: its noon.
    expect(by('recovered')).toMatchObject({ kg: 0.25, at: new Date('2026-02-27T19:00:00Z'), recoveredFor: 'reclaim' });
    expect([by('bought')?.unit, by('bought')?.kg, by('to_destruction')?.kg]).toEqual([null, 3, -2]);
    expect((await written(id)).at(-1)).toMatchObject({ action: 'cylinder.weighed', detail: { way: 'to_destruction', kg: 2 } });
  });

  it('is refused with what is missing, and nothing is written', async () => {
    const id = await haveCylinder();
    const blend = await haveCylinder({ refrigerant: 'R404A' });
    const refused = (input: NewCylinderEntry) =>
      enterWeighing(ctx(), input).then(
        () => expect.fail('was taken'),
        (e: unknown) => e,
      );
    const unknown = crypto.randomUUID();
    expect(await refused(line(unknown, 'bought'))).toMatchObject({ code: 'not_found' });
    expect(await refused(line(id, 'bought', { on: localDate('2026-03-03') }))).toMatchObject({
      field: 'on',
      message: 'That day is still to come.',
    });
    for (const unitTag of ['', 'NO-SUCH'])
      expect(await refused(line(id, 'charged', { unitTag }))).toMatchObject({
        field: 'unitTag',
        message: 'Which unit? Give the tag on its label.',
      });
    expect(await refused(line(blend, 'charged'))).toMatchObject({
      field: 'unitTag',
      message: 'Walk-in runs on R-134a, the cylinder holds R-404A.',
    });
    for (const said of [{}, { overruledBy: 'R. Boss' }, { overruledWhy: 'Card lost' }])
      for (const none of [null, unknown])
        expect(await refused(line(id, 'charged', { certificateId: none, ...said }))).toMatchObject({
          code: 'invalid',
          field: 'certificateId',
        });
    expect([await linesOf(id), await linesOf(blend)]).toEqual([[], []]);
    await enterWeighing(ctx(), line(id, 'charged', { certificateId: null, overruledBy: 'R. Boss', overruledWhy: 'Card lost' }));
    expect(await linesOf(id)).toMatchObject([
      { certificate: null, overruledBy: 'R. Boss', overruledWhy: 'Card lost', by: { name: 'Nell Ash' } },
    ]);
  });

  it('out of a cylinder into another is typed with a minus, everything else without a sign', () => {
    const typed = (way: CylinderWay, value: number) =>
      NewCylinderEntry.safeParse({ cylinderId: crypto.randomUUID(), way, kg: { value, unit: 'kg' }, gross: { unit: 'kg' }, unitTag: '', overruledBy: '', overruledWhy: '', on: '2026-03-02', note: '' }); // prettier-ignore
    expect([typed('moved', -2).data?.kg, typed('moved', 2).data?.kg]).toEqual([-2, 2]);
    for (const [way, kg] of [
      ['moved', 0],
      ['bought', 0],
      ['bought', -2],
      ['charged', -0.1],
    ] as const)
      // prettier-ignore
      expect(typed(way, kg).error?.issues).toMatchObject([{ path: ['kg.value'] }]);
  });

  it('is taken back by another line that says why, once; a weighing is made again instead', async () => {
    const id = await haveCylinder();
    await enterWeighing(ctx(), line(id, 'recovered', { kg: 1.5, recoveredFor: 'reuse' }));
    await enterWeighing(ctx(), line(id, 'scale_check', { kg: null, gross: 16.5 }));
    const [wrong, check] = [
      (await linesOf(id)).find((e) => e.way === 'recovered')?.id ?? '',
      (await linesOf(id)).find((e) => e.way === 'scale_check')?.id ?? '',
    ];
    const later = ctx(new Date(now.getTime() + 3_600_000));
    await takeEntryBack(later, { entryId: wrong, why: 'It was another unit' });
    const back = (await linesOf(id)).find((e) => e.correctsId === wrong);
    expect(back).toMatchObject({
      kg: -1.5,
      way: 'recovered',
      recoveredFor: 'reuse',
      note: 'It was another unit',
      at: later.now,
      unit: { tag: 'WALK-1' },
    });
    expect(await bookKg(id)).toBe(10);
    expect((await written(id)).at(-1)).toMatchObject({
      action: 'cylinder.taken_back',
      detail: { entryId: wrong, what: 'Recovered from a unit', why: 'It was another unit' },
    });
    for (const entryId of [wrong, back?.id ?? ''])
      await expect(takeEntryBack(later, { entryId, why: 'Again' })).rejects.toMatchObject({ code: 'conflict' });
    await expect(takeEntryBack(later, { entryId: check, why: 'Wrong' })).rejects.toMatchObject({ code: 'invalid' });
    await expect(takeEntryBack(later, { entryId: crypto.randomUUID(), why: 'Wrong' })).rejects.toMatchObject({ code: 'not_found' });
    expect(await linesOf(id)).toHaveLength(3);
  });
});

describe('a year of the book', () => {
  it('goes by the shop’s clock, and is the same on the page and in the file; what is taken back later counts in no year', async () => {
    const id = await haveCylinder({ refrigerant: 'R22' });
    await database.db.unit.update({ where: { id: on.unit.id }, data: { refrigerant: 'R22' } });
    // Eight in the evening of New Year's Eve in Denver is next year by UTC.
    await enterWeighing(ctx(new Date('2024-01-01T03:00:00Z')), line(id, 'charged', { kg: 2, on: localDate('2023-12-31') }));
    await enterWeighing(ctx(new Date('2024-01-01T08:00:00Z')), line(id, 'recovered', { kg: 0.5, on: localDate('2024-01-01') }));
    await enterWeighing(ctx(new Date('2024-12-20T18:00:00Z')), line(id, 'charged', { kg: 7, on: localDate('2024-12-20'), note: '=1+1' }));
    const wrong = (await linesOf(id)).find((e) => e.kg === -7);
    const r22 = async (year: number) => (await yearOfBook(database.db, year, ZONE)).find((g) => g.gas === 'R22');
    expect(await r22(2024)).toMatchObject({ charged: 7, recovered: 0.5, netIntoUnits: 6.5 });
    await takeEntryBack(ctx(new Date('2025-01-10T18:00:00Z')), { entryId: wrong?.id ?? '', why: 'Grams for kilograms' });
    await database.db.unit.update({ where: { id: on.unit.id }, data: { refrigerant: 'R134a' } });

    // A kilogram of R-22 is as much as 1810 of carbon dioxide.
    expect(await r22(2023)).toMatchObject({ charged: 2, recovered: 0, co2Tonnes: expect.closeTo(3.62, 9) });
    expect(await r22(2024)).toMatchObject({ charged: 0, recovered: 0.5, netIntoUnits: -0.5 });
    expect(await r22(2025)).toBeUndefined();
    expect(await yearsOfBook(database.db, TODAY, ZONE)).toEqual([2026, 2025, 2024, 2023]);

    const file = async (year: number) => (await exportBook({ db: database.db }, year)).split('\r\n');
    const last = await file(2023);
    expect(last[0]).toMatch(/^\uFEFFdate,cylinder,refrigerant,what,/);
    expect(last.slice(1)).toEqual([
      expect.stringMatching(
        new RegExp(
          `^2023-12-31,C-\\d+,R22,Charged into a unit,-2,,,,Walk-in,WALK-1,${on.kitchen.name},${on.customer.name},Nell Ash,"Section 608, type II \\(high pressure\\) N-1",,,,[0-9a-f-]{36},1810,-3.620$`,
        ),
      ),
      '',
    ]);
    const year = await file(2024);
    expect(year.map((row) => row.slice(0, 10))).toEqual([expect.anything(), '2024-01-01', '2024-12-20', '']);
    expect(year[2]).toContain(",'=1+1,");
    expect((await file(2025))[1]).toContain(`,${wrong?.id},Grams for kilograms,`);
    expect(await file(2022)).toHaveLength(2);
  });
});

describe('certificates', () => {
  it('are a person’s until withdrawn; one that ran out is shown as such, and what was done under it keeps it', async () => {
    const { db } = database;
    const other = await db.user.create({ data: personRow({ name: 'Abel Crane' }) });
    await addCertificate(ctx(), { userId: other.id, kind: 'other', number: 'A-1', expiresOn: null });
    await addCertificate(ctx(new Date(now.getTime() + 1000)), { userId: other.id, kind: 'eu_category_1', number: 'A-2', expiresOn: null });
    const left = await db.user.create({ data: personRow({ name: 'Gone', active: false }) });
    await addCertificate(ctx(), { userId: left.id, kind: 'other', number: 'G-1', expiresOn: null });
    expect(await certificatesOf(db, on.person.id)).toMatchObject([{ number: 'N-1', kind: 'us_608_type_2', expiresOn: '2026-01-31' }]);
    const inUse = async () => (await certificatesInUse(db)).map((c) => `${c.name} ${c.number}`);
    expect(await inUse()).toEqual(['Abel Crane A-1', 'Abel Crane A-2', 'Nell Ash N-1']);
    const { id } = await db.certificate.findFirstOrThrow({ where: { number: 'A-1' } });
    await withdrawCertificate(ctx(), id);
    await withdrawCertificate(ctx(), id);
    expect(await inUse()).toEqual(['Abel Crane A-2', 'Nell Ash N-1']);
    expect((await certificatesOf(db, other.id)).map((c) => c.number)).toEqual(['A-2']);
    expect((await written(id)).map((w) => w.action)).toEqual(['certificate.withdrawn']);
    expect((await written(other.id))[0]).toMatchObject({ action: 'certificate.added', detail: { kind: 'other', expiresOn: null } });
    await expect(addCertificate(ctx(), { userId: crypto.randomUUID(), kind: 'other', number: 'X', expiresOn: null })).rejects.toMatchObject(
      {
        code: 'not_found',
      },
    );
  });

  it('vans are those of active people who visit', async () => {
    const { db } = database;
    await db.user.createMany({ data: [personRow({ name: 'Office', role: 'dispatcher' }), personRow({ name: 'Zed' })] });
    const names = (await technicians(db)).map((t) => t.name);
    expect(names).toEqual(names.toSorted());
    expect(names).toEqual(expect.arrayContaining(['Nell Ash', 'Zed']));
    expect(names.filter((n) => n === 'Office' || n === 'Gone')).toEqual([]);
  });
});

it('the shop says by which rules its leaks are read', async () => {
  await setLeakRules(ctx(), { leakRuleSet: 'eu', leakMethod: 'rolling' });
  expect(await database.db.shopSettings.findUnique({ where: { id: 1 } })).toMatchObject({ leakRuleSet: 'eu', leakMethod: 'rolling' });
  const [said] = await database.db.auditEntry.findMany({ where: { action: 'shop.leak_rules' } });
  expect(said).toMatchObject({ entity: 'ShopSettings', userId: on.person.id, detail: { leakRuleSet: 'eu', leakMethod: 'rolling' } });
});
