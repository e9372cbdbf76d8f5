import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { STORED_QUOTE } from '@/lib/database/stored/quotes';
import { timeAtVisits } from '@/lib/features/visits/reads/time-on-units';
import { hoursOfJobs } from '@/lib/features/jobs/reads/work-done';
import { jobPage } from '@/lib/features/jobs/reads/job-page';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import { partsForeseen } from '@/lib/core/tablet';
import { partsOnTablet } from '@/lib/features/parts/reads/parts';
import { movePart } from '@/lib/features/parts/verbs/move-part';
import { addWarranty, exportParts, importParts, savePart } from '@/lib/features/parts/verbs/save-parts';
import { useDatabase } from '@/tests/support/database';
import { jobRow, personRow } from '@/tests/support/factories';
import { finding, haveVisit, MORNING, officeTold, Tablet } from '../tablet/a-tablet';

const database = useDatabase();

async function world() {
  const { db } = database;
  const made = await haveVisit(db);
  const number = `FM-${made.unit.tag}`;
  const part = await db.part.create({
    data: { number, name: 'Fan motor, 16 W', priceCents: 7250, inVan: 2, inShop: 1, warrantyMonths: 12 },
  });
  const job = await db.job.create({
    data: jobRow(made.unit, { what: 'Fan hums', state: 'booked', visitId: made.visit.id, createdAt: MORNING }),
  });
  const line = { kind: 'part' as const, what: part.name, partNumber: number, quantity: 2, unit: 'pcs', priceCents: 7250, taxed: true };
  await db.quote.create({
    data: {
      jobId: job.id, version: 1, lines: STORED_QUOTE.write({ lines: [line] }), netCents: 14500, taxCents: 0, totalCents: 14500, currency: 'USD',
      validUntil: new Date('2026-12-24'), reason: 'It hums.', sentAt: MORNING, answer: 'accepted', answeredAt: MORNING, answeredBy: 'Ilse',
    },
  }); // prettier-ignore
  return { ...made, part, job, tablet: new Tablet(db, made.person), stock: async () => {
    const p = await db.part.findUniqueOrThrow({ where: { id: part.id } });
    return [p.inVan, p.inShop];
  } }; // prettier-ignore
}

describe('a part of the list', () => {
  it('is foreseen by the quote that was agreed, counted down where it was taken, and under warranty from that day', async () => {
    const { db } = database;
    const { visit, unit, tablet, part, job, stock } = await world();
    const [visitShown] = await visitsOnFile(db, [visit.id], null);
    if (!visitShown) throw new Error('no visit');
    expect(partsForeseen(visitShown)).toEqual([
      { partId: part.id, number: part.number, what: 'Fan motor, 16 W', quantity: 2, unitId: unit.id },
    ]);
    const used = tablet.make(visit.id, 'part.use', { unitId: unit.id, what: part.name, quantity: 2, partId: part.id, place: 'van' });
    const answers = await tablet.send([tablet.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }), used]);
    expect(answers.results.map((r) => r.outcome)).toEqual(['applied', 'applied']);
    expect(await stock()).toEqual([0, 1]);
    const warranty = await db.warranty.findUniqueOrThrow({ where: { partUsedId: used.id } });
    expect([warranty.unitId, warranty.what, warranty.until.toISOString().slice(0, 10)]).toEqual([unit.id, 'Fan motor, 16 W', '2027-11-25']);
    const [after] = await visitsOnFile(db, [visit.id], null);
    expect(after && partsForeseen(after)).toEqual([]);
    // The job's page speaks of it, and of the warranty before another quote.
    const page = await jobPage(db, job.id);
    expect(page?.units[0]?.warranties.map((w) => w.until)).toEqual(['2027-11-25']);
    expect(page?.work.visits[0]?.parts.map((p) => [p.quantity, p.what, p.place])).toEqual([[2, 'Fan motor, 16 W', 'van']]);
    // Taken back, everything is as it was.
    await tablet.send([tablet.make(visit.id, 'entry.strike', { what: 'part', entryId: used.id, why: 'Slip' })]);
    expect(await stock()).toEqual([2, 1]);
    expect(await db.warranty.count({ where: { unitId: unit.id } })).toBe(0);
  });

  it('stands on the page of its job, though nobody wrote down the arrival', async () => {
    const { db } = database;
    const { visit, unit, tablet, part, job } = await world();
    const before = await jobPage(db, job.id);
    expect(before?.work.visits).toEqual([]);
    await tablet.send([
      tablet.make(visit.id, 'part.use', { unitId: unit.id, what: part.name, quantity: 1, partId: part.id, place: 'shop' }),
    ]);
    const page = await jobPage(db, job.id);
    expect(page?.work.visits.map((v) => v.parts.map((p) => [p.quantity, p.place]))).toEqual([[[1, 'shop']]]);
  });

  it('comes out of one’s own van, and is loaded, brought back and counted place by place', async () => {
    const { db } = database;
    const { visit, unit, tablet, part, person, stock } = await world();
    const other = await db.user.create({ data: personRow({ name: 'Mats Ek' }) });
    const own = async (who = person.id) =>
      (await db.partInVan.findUnique({ where: { partId_technicianId: { partId: part.id, technicianId: who } } }))?.pieces;
    const move = (pieces: number, from: string, to: string) => movePart({ db }, { number: part.number, pieces, from, to });
    const onTablet = async (who: string) => (await partsOnTablet(db, who)).find((p) => p.id === part.id)?.inVan;
    expect(await onTablet(person.id)).toBe(2);
    await move(1, 'shop', person.id);
    await move(4, '', other.id);
    expect([await stock(), await own(), await own(other.id)]).toEqual([[2, 0], 1, 4]);
    expect([await onTablet(person.id), await onTablet(other.id)]).toEqual([1, 4]);
    const used = tablet.make(visit.id, 'part.use', { unitId: unit.id, what: part.name, quantity: 2, partId: part.id, place: 'van' });
    const { results } = await tablet.send([used]);
    expect(await officeTold(db, results[0])).toMatch(/had 1 of .* in the van, and 2 were taken/);
    expect([await stock(), await own(), await own(other.id)]).toEqual([[2, 0], 0, 4]);
    await tablet.send([tablet.make(visit.id, 'entry.strike', { what: 'part', entryId: used.id, why: 'Slip' })]);
    expect([await stock(), await own()]).toEqual([[2, 0], 1]);
    await expect(move(2, person.id, 'shop')).rejects.toMatchObject({ code: 'conflict', field: 'pieces' });
    await expect(move(1, 'shop', 'van')).rejects.toMatchObject({ code: 'conflict', field: 'pieces' });
    await move(4, other.id, '');
    expect([await stock(), await own(other.id)]).toEqual([[2, 0], 0]);
    // The file holds each van, and comes back as it was; a price alone changes no count.
    const csv = await exportParts({ db });
    expect(csv).toContain('van of Mats Ek');
    await move(1, person.id, 'shop');
    expect(await importParts({ db, actor: { userId: person.id }, now: MORNING }, csv)).toMatchObject({ problems: [], added: 0 });
    expect([await stock(), await own()]).toEqual([[2, 0], 1]);
    await savePart({ db, actor: { userId: person.id }, now: MORNING }, { number: part.number, name: part.name, price: 100 });
    expect([await stock(), await own()]).toEqual([[2, 0], 1]);
    const row = { partId: part.id, technicianId: other.id };
    await expect(db.partInVan.update({ where: { partId_technicianId: row }, data: { pieces: -1 } })).rejects.toThrow(/part_in_van_pieces/);
    const taken = {
      id: randomUUID(),
      visitId: visit.id,
      what: 'x',
      at: MORNING,
      partId: part.id,
      place: 'shop' as const,
      vanOfId: other.id,
    };
    await expect(db.partUsed.create({ data: taken })).rejects.toThrow(/part_used_van/);
  });

  it('of which the list has too few is filed all the same, and the office is asked to count', async () => {
    const { db } = database;
    const { visit, tablet, part, stock } = await world();
    const used = tablet.make(visit.id, 'part.use', { unitId: null, what: part.name, quantity: 3, partId: part.id, place: 'shop' });
    const { results } = await tablet.send([used]);
    expect(await officeTold(db, results[0])).toMatch(/had 1 of .* in the shop, and 3 were taken/);
    expect(await stock()).toEqual([2, 0]);
    await tablet.send([tablet.make(visit.id, 'entry.strike', { what: 'part', entryId: used.id, why: 'Slip' })]);
    expect(await stock()).toEqual([2, 1]);
  });

  it('that the list does not know is filed by its name, and words of one’s own need no list', async () => {
    const { db } = database;
    const { visit, tablet } = await world();
    const strange = tablet.make(visit.id, 'part.use', {
      unitId: null,
      what: 'Belt',
      quantity: 1,
      partId: crypto.randomUUID(),
      place: 'van',
    });
    const { results } = await tablet.send([strange, tablet.make(visit.id, 'part.use', { unitId: null, what: 'Rags', quantity: 1 })]);
    expect(await officeTold(db, results[0])).toMatch(/not on the list/);
    expect(results[1]?.outcome).toBe('applied');
    expect(
      await db.partUsed.findMany({
        where: { visitId: visit.id },
        orderBy: { at: 'asc' },
        select: { what: true, partId: true, taken: true },
      }),
    ).toEqual([
      { what: 'Belt', partId: null, taken: 0 },
      { what: 'Rags', partId: null, taken: 0 },
    ]);
  });
});

describe('the list of parts', () => {
  const actor = { userId: randomUUID() };
  const price = { number: 'Z-1', name: 'Gasket', price: 1250 };

  it('takes a part on, changes it by its number, and leaves what is not said', async () => {
    const { db } = database;
    const at = { db, actor, now: MORNING };
    const part = { ...price, number: 'Y-1' };
    await savePart(at, { ...part, inVan: 3, inShop: 4, warrantyMonths: 6 });
    const kept = () => db.part.findUniqueOrThrow({ where: { number: part.number } });
    expect(await kept()).toMatchObject({ name: 'Gasket', priceCents: 1250, inVan: 3, inShop: 4, warrantyMonths: 6, version: 1 });
    await db.part.update({ where: { number: part.number }, data: { archivedAt: MORNING } });
    await expect(movePart({ db }, { number: part.number, pieces: 1, from: 'shop', to: '' })).rejects.toMatchObject({
      code: 'not_found',
      field: 'number',
      message: 'No part of that number is on the list.',
    });
    await savePart(at, { ...part, name: 'Door gasket', price: 1300 });
    expect(await kept()).toMatchObject({ name: 'Door gasket', priceCents: 1300, inVan: 3, inShop: 4, version: 2, archivedAt: null });
  });

  it('moves pieces only where somebody has that van and the place has enough, and says what is wrong', async () => {
    const { db } = database;
    const { part, person, stock } = await world();
    const move = (pieces: number, from: string, to: string) => movePart({ db }, { number: part.number, pieces, from, to });
    const retired = await db.user.create({ data: personRow({ active: false }) });
    const office = await db.user.create({ data: personRow({ role: 'dispatcher' }) });
    for (const { id } of [retired, office])
      await expect(move(1, 'shop', id)).rejects.toMatchObject({
        code: 'conflict',
        field: 'to',
        message: 'Nobody has that van any more. Choose another.',
      });
    await expect(move(2, 'shop', 'van')).rejects.toThrow('The list has fewer than 2 pieces there. Count them.');
    expect(await stock()).toEqual([2, 1]);
    await move(2, 'van', 'shop');
    expect(await stock()).toEqual([0, 3]);
    // What lies in the van of somebody who left can still be brought back.
    await db.partInVan.create({ data: { partId: part.id, technicianId: retired.id, pieces: 2 } });
    await move(2, retired.id, 'shop');
    expect(await stock()).toEqual([0, 5]);
    expect(await db.partInVan.count({ where: { partId: part.id, technicianId: person.id } })).toBe(0);
  });

  it('goes on a tablet with what lies in one’s own van first, then what lies in the shop; nothing off the list', async () => {
    const { db } = database;
    await db.part.updateMany({ data: { archivedAt: MORNING } });
    const me = await db.user.create({ data: personRow() });
    const put = (number: string, inVan: number, inShop: number, archivedAt: Date | null = null) =>
      db.part.create({ data: { number, name: number, priceCents: 100, inVan, inShop, archivedAt } });
    await put('A', 0, 1);
    await put('B', 0, 9);
    const own = await put('C', 0, 0);
    await put('D', 5, 5, MORNING);
    await db.partInVan.create({ data: { partId: own.id, technicianId: me.id, pieces: 2 } });
    expect((await partsOnTablet(db, me.id)).map((p) => [p.number, p.inVan, p.inShop])).toEqual([
      ['C', 2, 0],
      ['B', 0, 9],
      ['A', 0, 1],
    ]);
  });

  it('takes a file in whole or not at all: of a bad line nothing is kept of the good ones', async () => {
    const { db } = database;
    await db.part.updateMany({ data: { archivedAt: MORNING } });
    const at = { db, actor, now: MORNING };
    await savePart(at, price);
    const [head = '', row = ''] = (await exportParts({ db })).replace('\uFEFF', '').trim().split('\r\n');
    const bad = [head, row.replace('12.50', 'dear')].join('\r\n');
    const refused = await importParts(at, [bad, row.replace('Z-1', 'Z-2')].join('\r\n'));
    expect(refused).toMatchObject({ added: 0, changed: 0 });
    expect(refused.problems.map((p) => p.line)).toEqual([2]);
    expect(await db.part.count({ where: { archivedAt: null } })).toBe(1);
    const good = [head, row.replace('12.50', '13.75'), row.replace('Z-1', 'Z-2')].join('\r\n');
    expect(await importParts(at, good)).toEqual({ problems: [], added: 1, changed: 1 });
    expect(await db.part.findUniqueOrThrow({ where: { number: 'Z-1' } })).toMatchObject({ priceCents: 1375 });
  });

  it('has its warranties from the day it was put in, for units of the job’s own kitchen only', async () => {
    const { db } = database;
    const { unit, job, person } = await world();
    const other = await haveVisit(db);
    const ctx = { db, actor: { userId: person.id }, now: MORNING };
    const warranty = { jobId: job.id, what: 'Compressor', until: '2028-01-31', note: 'By the maker' };
    await addWarranty(ctx, { ...warranty, unitId: unit.id });
    expect(await db.warranty.findMany({ where: { unitId: unit.id } })).toMatchObject([
      { what: 'Compressor', until: new Date('2028-01-31'), note: 'By the maker', createdById: person.id, createdAt: MORNING },
    ]);
    await expect(addWarranty(ctx, { ...warranty, unitId: other.unit.id })).rejects.toMatchObject({ code: 'not_found', field: 'unitId' });
  });
});

describe('the database', () => {
  it('counts nothing down that lies on no list, and never more than was used', async () => {
    const { db } = database;
    const { visit, part } = await world();
    const row = { visitId: visit.id, what: 'Fan', quantity: 1, at: MORNING };
    await expect(db.partUsed.create({ data: { ...row, taken: 1 } })).rejects.toThrow(/part_used_taken/);
    await expect(db.partUsed.create({ data: { ...row, taken: 1, partId: part.id } })).rejects.toThrow(/part_used_taken/);
    await expect(db.partUsed.create({ data: { ...row, taken: 2, partId: part.id, place: 'van' } })).rejects.toThrow(/part_used_taken/);
  });

  it('has no warranty without a word on what it covers, nor pieces below nothing', async () => {
    const { db } = database;
    const { unit, part } = await world();
    await expect(db.warranty.create({ data: { unitId: unit.id, what: '', until: MORNING } })).rejects.toThrow(/warranty_says_what/);
    await expect(db.part.update({ where: { id: part.id }, data: { inVan: -1 } })).rejects.toThrow(/part_counts/);
  });
});

it('the time of a job is told from what was written at its units, and of the usual hours nothing is said from too few', async () => {
  const { db } = database;
  const { visit, unit, job, tablet } = await world();
  await tablet.send([
    tablet.make(visit.id, 'visit.start', { arrivedAt: tablet.clock.toISOString() }),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'runs')),
    tablet.make(visit.id, 'job.outcome', { jobId: job.id, outcome: 'done', note: '' }),
  ]);
  const spent = (await timeAtVisits(db, [visit.id])).get(visit.id)?.get(unit.id);
  expect(spent).toMatchObject({ lo: 2, hi: 4 });
  expect((await jobPage(db, job.id))?.work.visits[0]?.time).toEqual(spent);
  expect(await hoursOfJobs(db, MORNING)).toBeNull();
});

it('a repair record is of the job that stands on its visit and names its unit; of another kitchen’s it cannot be', async () => {
  const { db } = database;
  const { visit, unit, job, tablet } = await world();
  const step = { recordId: crypto.randomUUID(), unitId: unit.id, step: 'isolate' as const, work: null, skippedWhy: 'Off already' };
  const { results } = await tablet.send([
    tablet.make(visit.id, 'sealed.step', { ...step, certificateId: null, overruledBy: '', overruledWhy: '', note: '' }),
  ]);
  expect(results[0]?.outcome).toBe('applied');
  expect((await jobPage(db, job.id))?.work.records).toMatchObject([{ id: step.recordId, steps: 1, unit: { id: unit.id } }]);
  const elsewhere = await world();
  await expect(db.sealedRecord.update({ where: { id: step.recordId }, data: { jobId: elsewhere.job.id } })).rejects.toThrow(
    /sealed_record_of_kitchens_job/,
  );
});
