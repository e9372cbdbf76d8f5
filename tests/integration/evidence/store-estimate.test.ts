import { describe, expect, it } from 'vitest';
import { cleanPrior, conductanceOf, steadyState, type EstimateOk } from '@/lib/core/condenser';
import { condenserUnitOf } from '@/lib/core/condenser/from-record';
import { tasksOfUnit } from '@/lib/features/equipment/reads/units';
import { unitEvidence } from '@/lib/features/evidence/reads/evidence';
import { shopFacts } from '@/lib/features/evidence/reads/fouling';
import { unitReadings } from '@/lib/features/evidence/reads/unit-visits';
import { storeEstimate } from '@/lib/features/evidence/verbs/store-estimate';
import { findingRow, haveOneUnit, readingRow, unitRow, visitRow } from '@/tests/support/factories';
import { STORED_ESTIMATE } from '@/lib/database/stored/estimate';
import { useDatabase } from '@/tests/support/database';

const database = useDatabase();
const AIR = 305;

/** A unit whose reading comes from the forward equations at a known share of its clean conductance. */
async function read(share: number, over: { phase?: 'before' | 'after'; at?: string; price?: number | null; steadyMinutes?: number } = {}) {
  const { db } = database;
  const have = await haveOneUnit(db, { kitchen: { energyPricePerKwh: over.price === undefined ? 0.14 : over.price } });
  return { ...have, db, ...(await readAgain(have, share, over)) };
}

type Have = Awaited<ReturnType<typeof haveOneUnit>>;
async function readAgain(
  { kitchen, unit, person }: Pick<Have, 'kitchen' | 'unit' | 'person'>,
  share: number,
  over: { phase?: 'before' | 'after'; at?: string; steadyMinutes?: number } = {},
) {
  const { db } = database;
  const at = new Date(over.at ?? '2026-03-02T16:00:00Z');
  const core = condenserUnitOf(unit, kitchen);
  const clean = conductanceOf(core, cleanPrior(core).cleanRiseK) as number;
  const state = steadyState(core, clean * share, { airK: AIR, boxK: core.boxSetPointK });
  if (state.status !== 'ok') throw new Error(state.message);
  const visit = await db.visit.create({ data: visitRow(kitchen.id, person.id, at, 60) });
  const reading = await db.reading.create({
    data: readingRow(unit.id, at, {
      visitId: visit.id,
      phase: over.phase ?? 'before',
      headPaGauge: state.headPaGauge,
      suctionPaGauge: state.suctionPaGauge,
      airInK: AIR,
      boxK: core.boxSetPointK,
      steadyMinutes: over.steadyMinutes ?? 20,
    }),
  });
  return { visit, reading, core };
}

describe('an estimate from a reading on file', () => {
  it('finds the conductance that the forward equations took away, and keeps it', async () => {
    const { db, reading } = await read(0.6);
    const estimate = (await storeEstimate({ db }, reading.id)) as EstimateOk;
    expect(estimate.status).toBe('ok');
    expect(Math.abs(estimate.conductanceLost.value - 0.4)).toBeLessThan(0.06);
    const row = await db.estimate.findUniqueOrThrow({ where: { readingId: reading.id } });
    expect(Math.abs((row.lnK ?? NaN) - Math.log(0.6))).toBeLessThan(0.1);
    expect(row.lnKSd).toBeGreaterThan(0.03);
    // Nobody looked at coil and fan on this visit: first that.
    expect(row.verdict).toBe('look_first');
    expect(STORED_ESTIMATE.read(row.result)).toEqual(JSON.parse(JSON.stringify(estimate)));
    expect(estimate.extraCostPerDay?.currency).toBe('USD');
  });

  it('replaces the estimate of the same reading', async () => {
    const { db, reading } = await read(0.8);
    await storeEstimate({ db }, reading.id);
    await db.reading.update({ where: { id: reading.id }, data: { steadyMinutes: 1 } });
    const again = await storeEstimate({ db }, reading.id);
    expect(again).toMatchObject({ status: 'cannot_say', reason: 'not_steady' });
    expect(await db.estimate.findMany({ where: { readingId: reading.id } })).toMatchObject([
      { status: 'cannot_say', lnK: null, lnKSd: null },
    ]);
  });

  it('tells no money where the kitchen has no price', async () => {
    const { db, reading } = await read(0.6, { price: null });
    const estimate = (await storeEstimate({ db }, reading.id)) as EstimateOk;
    expect(estimate.extraEnergyKwhPerDay?.value).toBeGreaterThan(0);
    expect(estimate.extraCostPerDay).toBeNull();
    expect(estimate.assumptions.join(' ')).toContain('No energy price on file');
  });

  it('learns the clean rise from a reading after cleaning, and reads the next one against it', async () => {
    // The true clean conductance is 0.85 of what is usual for its kind: without learning it looks 15 % fouled for ever.
    const have = await read(0.85, { phase: 'after' });
    const { db, unit } = have;
    await storeEstimate({ db }, have.reading.id);
    const before = cleanPrior(have.core).cleanRiseK;
    const fouling = await db.unitFouling.findUniqueOrThrow({ where: { unitId: unit.id } });
    const learned = fouling.baseline as { cleanRiseK: number; readings: number };
    expect(learned.readings).toBe(1);
    expect(learned.cleanRiseK).toBeGreaterThan(before * 1.05);
    const next = await readAgain(have, 0.85, { at: '2026-03-09T16:00:00Z' });
    const estimate = (await storeEstimate({ db }, next.reading.id)) as EstimateOk;
    expect(Math.abs(estimate.conductanceLost.value)).toBeLessThan(0.1);
    expect(estimate.verdict).not.toBe('clean_it');
  });

  it('learns nothing of the clean coil while the fan is dead', async () => {
    const { db, unit, visit, reading } = await read(0.5, { phase: 'after' });
    await db.finding.create({ data: findingRow(visit.id, unit.id, 'condenser_fan', 'failed', reading.at) });
    await storeEstimate({ db }, reading.id);
    const fouling = await db.unitFouling.findUniqueOrThrow({ where: { unitId: unit.id } });
    expect((fouling.baseline as { readings: number }).readings).toBe(0);
  });

  it('moves the clean baseline by a reading after cleaning alone, and of what is believed nothing else', async () => {
    const have = await read(0.85);
    const { db, unit } = have;
    await storeEstimate({ db }, have.reading.id);
    expect(await db.unitFouling.count({ where: { unitId: unit.id } })).toBe(0);
    const after = await readAgain(have, 0.85, { phase: 'after', at: '2026-03-09T16:00:00Z' });
    await storeEstimate({ db }, after.reading.id);
    const believed = () => db.unitFouling.findUniqueOrThrow({ where: { unitId: unit.id } });
    const first = await believed();
    // As of a unit of which nothing but its clean coil is known.
    expect(first).toMatchObject({ evidenceCount: 0, baseline: { readings: 1 } });
    await db.unitFouling.update({ where: { unitId: unit.id }, data: { ratePerDay: 0.0123, evidenceCount: 7 } });
    const again = await readAgain(have, 0.85, { phase: 'after', at: '2026-03-16T16:00:00Z' });
    await storeEstimate({ db }, again.reading.id);
    expect(await believed()).toMatchObject({ ratePerDay: 0.0123, evidenceCount: 7, posterior: first.posterior, baseline: { readings: 2 } });
  });

  it('goes by the grades that stand of its own visit and unit, as found before the work and as left after it', async () => {
    const have = await read(0.6);
    const { db, unit, visit, reading, kitchen } = have;
    const look = (grade: 'bare' | 'packed', over: object = {}) =>
      db.finding.create({ data: findingRow(visit.id, unit.id, 'coil', grade, reading.at, over) });
    await look('bare', { phase: 'left' });
    await db.finding.create({ data: findingRow(visit.id, unit.id, 'condenser_fan', 'sound', reading.at) });
    const other = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Another' }) });
    await db.finding.create({ data: findingRow(visit.id, other.id, 'coil', 'packed', reading.at) });
    await look('packed', { supersededAt: reading.at });
    // What it was left as, another’s grade and one replaced say nothing of how it was found.
    expect((await storeEstimate({ db }, reading.id)).verdict).toBe('look_first');
    await look('packed');
    expect((await storeEstimate({ db }, reading.id)).verdict).toBe('clean_it');
  });

  it('is made of a unit that went out of use, and of a reading without a visit', async () => {
    const have = await read(0.6);
    const { db, unit, reading } = have;
    await db.unit.update({ where: { id: unit.id }, data: { archivedAt: reading.at } });
    expect((await storeEstimate({ db }, reading.id)).status).toBe('ok');
    const after = await readAgain(have, 0.9, { phase: 'after', at: '2026-03-09T16:00:00Z' });
    expect((await storeEstimate({ db }, after.reading.id)).status).toBe('ok');
    expect(await db.unitFouling.count({ where: { unitId: unit.id } })).toBe(0);
    await db.reading.update({ where: { id: reading.id }, data: { visitId: null } });
    expect((await storeEstimate({ db }, reading.id)).status).toBe('ok');
  });

  it('says which reading is not on file', async () => {
    await expect(storeEstimate({ db: database.db }, '00000000-0000-4000-8000-000000000000')).rejects.toMatchObject({ code: 'not_found' });
  });
});

describe('the readings of a unit on its page', () => {
  const now = new Date('2026-03-20T18:00:00Z');
  const shownOf = async (unitId: string) => {
    const { db } = database;
    const unit = await db.unit.findUniqueOrThrow({ where: { id: unitId }, include: { kitchen: true } });
    return unitEvidence(db, unit, now, { shop: await shopFacts(db), tasks: tasksOfUnit(db, unitId) });
  };
  const close = (id: string, at: Date) => database.db.visit.update({ where: { id }, data: { status: 'done', closedAt: at } });

  it('are those that say something, each by its day at the kitchen; the newest stands with its estimate', async () => {
    const have = await read(0.7);
    const { db, unit, kitchen } = have;
    await storeEstimate({ db }, have.reading.id);
    await close(have.visit.id, have.reading.at);
    // Ten in the evening of the ninth in Denver; and one that was not steady, after it.
    const second = await readAgain(have, 0.6, { at: '2026-03-10T04:00:00Z' });
    const vague = await readAgain(have, 0.6, { at: '2026-03-12T16:00:00Z', steadyMinutes: 1 });
    const open = await readAgain(have, 0.5, { at: '2026-03-15T16:00:00Z' });
    for (const r of [second, vague, open]) await storeEstimate({ db }, r.reading.id);
    for (const r of [second, vague]) await close(r.visit.id, r.reading.at);
    const shown = await shownOf(unit.id);
    expect(shown?.readings.map((r) => [r.on, r.phase])).toEqual([['2026-03-02', 'before'], ['2026-03-09', 'before'], ['2026-03-15', 'before']]); // prettier-ignore
    const lost = (shown?.readings ?? []).map((r) => r.lnK);
    expect(lost).toEqual(lost.toSorted((a, b) => b - a));
    [0.7, 0.6, 0.5].forEach((share, i) => expect(Math.abs((lost[i] ?? NaN) - Math.log(share)), `${share}`).toBeLessThan(0.15));
    // Of the newest that could say something, whether its visit is closed or not.
    expect(shown?.latest).toMatchObject({ on: '2026-03-15', estimate: { status: 'ok' } });
    expect(shown?.latest?.reading.headPaGauge).toBeCloseTo(open.reading.headPaGauge ?? NaN, 3);
    const { heads } = await unitReadings(db, unit.id, kitchen.timeZone);
    expect(heads).toEqual([have, second, open].map((r) => ({ at: r.reading.at.getTime(), phase: 'before', airK: AIR, headPaGauge: r.reading.headPaGauge, clampK: null }))); // prettier-ignore
    expect(shown?.cycle).not.toBeNull();
    expect(shown?.visits.find((v) => v.id === second.visit.id)?.readings).toMatchObject([{ phase: 'before', estimate: { status: 'ok' } }]);
    await db.reading.update({ where: { id: open.reading.id }, data: { supersededAt: now } });
    await db.reading.update({ where: { id: second.reading.id }, data: { supersededAt: now } });
    const corrected = await shownOf(unit.id);
    expect(corrected?.readings.map((r) => r.on)).toEqual(['2026-03-02']);
    expect(corrected?.latest?.on).toBe('2026-03-02');
  });

  it('where none could say anything, the newest tells why', async () => {
    const have = await read(0.7, { steadyMinutes: 1 });
    const { db, unit } = have;
    const second = await readAgain(have, 0.6, { at: '2026-03-09T16:00:00Z', steadyMinutes: 2 });
    for (const r of [have, second]) await storeEstimate({ db }, r.reading.id);
    const { latest, heads } = await unitReadings(db, unit.id, 'America/Denver');
    expect(latest).toMatchObject({ on: '2026-03-09', estimate: { status: 'cannot_say', reason: 'not_steady' } });
    expect(heads).toEqual([]);
  });

  it('what stands out at the unit is told in its own money and time: today’s loss, the days ahead, why a packed coil keeps its date', async () => {
    const have = await read(0.6);
    const { db, unit, visit, reading, tasks } = have;
    await storeEstimate({ db }, reading.id);
    await close(visit.id, reading.at);
    await db.finding.create({ data: findingRow(visit.id, unit.id, 'coil', 'packed', reading.at) });
    const coil = tasks.find((t) => t.kindKey === 'coil_cleaning') ?? expect.fail();
    await db.task.update({ where: { id: coil.id }, data: { dueOn: new Date('2026-04-10') } });
    const shown = await shownOf(unit.id);
    expect(shown?.coil).toMatchObject({ rule: coil.rule, dueOn: '2026-04-10' });
    expect(shown?.grades).toMatchObject([{ on: '2026-03-02', aspect: 'coil', grade: 'packed' }]);
    expect(shown?.todayLost?.value).toBeGreaterThan(0.1);
    expect(shown?.todayMoney?.value).toBeCloseTo((shown?.todayKwh?.value ?? NaN) * 0.14, 9);
    expect(shown?.fan[0]?.on).toBe('2026-03-20');
    expect(shown?.head).not.toBeNull();
    // Never cleaned by us, so nothing is revised and nothing stays.
    expect([shown?.stays, shown?.washThrough]).toEqual([null, null]);
    await db.task.update({ where: { id: coil.id }, data: { active: false } });
    expect((await shownOf(unit.id))?.coil).toBeNull();
  });
});
