import { readFile } from 'node:fs/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { importRun, recentImports } from '@/lib/features/fleet-csv/reads/imports';
import { unpackedSize } from '@/lib/features/fleet-csv/verbs/read-xlsx';
import { checkImport } from '@/lib/features/fleet-csv/verbs/check-import';
import { importProgress } from '@/lib/features/fleet-csv/verbs/import-progress';
import { chooseInSheet } from '@/lib/features/fleet-csv/verbs/choose';
import { runImport, startImport } from '@/lib/features/fleet-csv/verbs/run-import';
import { undoImport } from '@/lib/features/fleet-csv/verbs/undo-import';
import { haveOneUnit, haveTaskKinds, kitchenRow, personRow, visitRow } from '../../support/factories';
import { useDatabase } from '../../support/database';

const database = useDatabase();
const now = new Date('2026-11-27T18:00:00Z');
const actor = { userId: '00000000-0000-4000-8000-000000000001' };
const ctx = () => ({ db: database.db, actor, now });
const book = () => readFile('tests/support/messy-sheet.xlsx');

beforeAll(async () => {
  await database.db.user.create({ data: personRow({ id: actor.userId, role: 'owner' }) });
  await database.db.shopSettings.create({ data: { id: 1, name: 'Shop', timeZone: 'America/Chicago' } });
  await haveTaskKinds(database.db);
});
const read = async (runId: string) => (await importRun(database.db, runId)) ?? expect.fail('the run is gone');
async function run(runId: string) {
  await startImport(ctx(), runId);
  await runImport(ctx(), runId);
  return read(runId);
}
const counts = async () => [await database.db.customer.count(), await database.db.kitchen.count(), await database.db.unit.count()];

describe('a workbook of 150 units', () => {
  let first = '';
  it('goes on file after four decisions, every row of it', async () => {
    ({ runId: first } = await checkImport(ctx(), { fileName: 'units.xlsx', bytes: await book() }));
    expect((await read(first)).report.summary).toMatchObject({ open: 4, errors: 0 });
    await expect(run(first)).resolves.toMatchObject({ status: 'failed' });
    await database.db.importRun.update({ where: { id: first }, data: { status: 'checked' } });
    await chooseInSheet(ctx(), { runId: first, of: 'answer', key: 'same harbour grill = harbor grill', value: 'same' });
    await chooseInSheet(ctx(), { runId: first, of: 'answer', key: 'placement', value: 'back_of_house' });
    await chooseInSheet(ctx(), { runId: first, of: 'answer', key: 'charge', value: 'oz' });
    await chooseInSheet(ctx(), { runId: first, of: 'placement', key: 'stn 4', value: 'line' });
    expect((await run(first)).status).toBe('done');
    expect(await counts()).toEqual([12, 14, 150]);
    expect(await database.db.unit.count({ where: { refrigerant: 'unknown' } })).toBeGreaterThan(0);
    expect(await database.db.task.count({ where: { lastDoneOn: new Date('2024-03-16T00:00:00Z') } })).toBeGreaterThan(0);
  });

  it('asks nothing the second time, finds every unit again, and fills in only what is blank', async () => {
    await database.db.unit.updateMany({ where: { serial: 'SN40000' }, data: { make: '' } });
    const { runId } = await checkImport(ctx(), { fileName: 'units.xlsx', bytes: await book() });
    expect((await read(runId)).report.summary).toMatchObject({ open: 0, units: 0, rowsOnFile: 150, updates: 1, errors: 0 });
    await run(runId);
    expect(await database.db.unit.findFirst({ where: { serial: 'SN40000' } })).toMatchObject({ make: 'Holm', version: 2 });
    expect(await counts()).toEqual([12, 14, 150]);
    await undoImport(ctx(), runId);
    expect(await database.db.unit.findFirst({ where: { serial: 'SN40000' } })).toMatchObject({ make: '', version: 3 });
  });

  it('adds serials by tag alone', async () => {
    const unit = await database.db.unit.findFirstOrThrow({ where: { serial: '' } });
    const { runId } = await checkImport(ctx(), { fileName: 'serials.csv', csv: `Tag,Serial\n${unit.tag},ZX-99001\n` });
    expect((await read(runId)).report.summary).toMatchObject({ open: 0, rowsOnFile: 1, updates: 1, units: 0, errors: 0 });
    await run(runId);
    expect(await database.db.unit.findUnique({ where: { id: unit.id } })).toMatchObject({ serial: 'ZX-99001', kind: unit.kind });
    await database.db.unit.update({ where: { id: unit.id }, data: { version: 1 } });
    await database.db.unit.updateMany({ data: { version: 1 } });
  });

  it('sets the position of a kitchen that was found by address, as a person’s, and gives the old one back', async () => {
    const { id, name, customer } = await database.db.kitchen.findFirstOrThrow({ include: { customer: true } });
    await database.db.kitchen.update({ where: { id }, data: { lat: 41, lng: -87, positionFrom: 'address', contactName: '' } });
    const unit = await database.db.unit.findFirstOrThrow({ where: { kitchenId: id } });
    const csv = `Customer,Kitchen,Tag,Position,Contact\n"${customer.name}","${name}",${unit.tag},"41.9, -87.6",Odile\n`;
    const { runId } = await checkImport(ctx(), { fileName: 'places.csv', csv });
    expect((await read(runId)).report.summary).toMatchObject({ open: 0, rowsOnFile: 1, updates: 0, kitchenUpdates: 1, errors: 0 });
    await run(runId);
    const of = () => database.db.kitchen.findUniqueOrThrow({ where: { id } });
    expect(await of()).toMatchObject({ lat: 41.9, lng: -87.6, positionFrom: 'hand', contactName: 'Odile' });
    await undoImport(ctx(), runId);
    expect(await of()).toMatchObject({ lat: 41, lng: -87, positionFrom: 'address', contactName: '' });
  });

  it('is taken back while nothing hangs on it, and not afterwards', async () => {
    const kitchen = await database.db.kitchen.findFirstOrThrow();
    const visit = await database.db.visit.create({ data: visitRow(kitchen.id, actor.userId, now, 60) as never });
    await expect(undoImport(ctx(), first)).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining('1 visit') });
    await database.db.visit.delete({ where: { id: visit.id } });
    await expect(undoImport(ctx(), first)).resolves.toEqual({ units: 150 });
    expect(await counts()).toEqual([0, 0, 0]);
    await expect(undoImport(ctx(), first)).rejects.toMatchObject({ code: 'not_found' });
  });
});

describe('what was decided of a sheet', () => {
  const SHEET = [
    'Customer,Kitchen,Item,Type,Gas,Where,Label,Remark',
    'Sole,Sole One,Big one,Reach-in,R290,Bar,SO-1,Hums',
    'Sole,Sole One,Small one,Reach-in,R290,Bar,SO-2,',
    'Sole,Sole Closed,Third,Reach-in,R290,Bar,SO-2,',
  ].join('\n');
  const choose = (runId: string, of: 'answer' | 'column' | 'sheet' | 'kind', key: string, value: string) =>
    chooseInSheet(ctx(), { runId, of, key, value });
  const handIn = async (csv = SHEET) => (await checkImport(ctx(), { fileName: 'sole.csv', csv })).runId;

  it('of a kitchen’s units typed a line each goes onto that kitchen, however its name is written', async () => {
    const { db } = database;
    const customer = await db.customer.create({ data: { name: 'GANNET fish bar' } });
    const kitchen = await db.kitchen.create({ data: kitchenRow(customer.id, { name: 'HARBOR front' }) });
    const lines = 'Reach-in, 134a, by the fryer\n2x undercounter, 290, bar\n';
    const { runId } = await checkImport(ctx(), { fileName: 'Typed lines', lines, kitchenId: kitchen.id });
    await choose(runId, 'answer', 'several', 'each');
    expect((await read(runId)).report.summary).toMatchObject({ open: 0, errors: 0, units: 3, newKitchens: 0, customers: 0 });
    expect((await run(runId)).status).toBe('done');
    const units = await db.unit.findMany({ where: { kitchenId: kitchen.id }, orderBy: { name: 'asc' }, include: { tasks: true } });
    expect(units.map((u) => [u.kind, u.refrigerant, u.placement, u.tasks.length > 0])).toEqual([
      ['reach_in', 'R134a', 'fryer', true],
      ['undercounter', 'R290', 'bar', true],
      ['undercounter', 'R290', 'bar', true],
    ]);
    await undoImport(ctx(), runId);
    await db.kitchen.update({ where: { id: kitchen.id }, data: { archivedAt: now } });
    await expect(checkImport(ctx(), { fileName: 'Typed lines', lines, kitchenId: kitchen.id })).rejects.toMatchObject({
      code: 'not_found',
    });
  });

  it('of whose a whole list is holds for that list, until a column says it', async () => {
    const list = (gas: string) => `Osprey Diner,,\nItem,Fluid,Place in kitchen\nReach-in,${gas},line\n`;
    const runId = await handIn(list('R290'));
    const asked = async (id: string) => (await read(id)).report.sheet?.questions.find((q) => q.id === 'customer');
    await choose(runId, 'answer', 'customer', 'all:Osprey Diner');
    expect(await asked(runId)).toMatchObject({ answer: 'all:Osprey Diner', open: false });
    await choose(runId, 'answer', 'customer', '0');
    expect((await read(runId)).choices).toMatchObject({ answers: {}, columns: { 0: 'customer' } });
    await choose(runId, 'column', '0', 'unit');
    await choose(runId, 'answer', 'customer', 'all:Osprey Diner');
    expect((await run(runId)).status).toBe('done');
    const [unit] = await database.db.unit.findMany({ where: { kitchen: { customer: { name: 'Osprey Diner' } } } });
    expect(unit).toMatchObject({ name: 'Reach-in', placement: 'line' });
    // The next list of these columns may be another's.
    const next = await handIn(list('R600a'));
    expect((await read(next)).choices).toMatchObject({ answers: {}, columns: { 0: 'unit' } });
    expect(await asked(next)).toMatchObject({ answer: '', open: true });
    await undoImport(ctx(), runId);
  });

  it('can be said otherwise until it is run: what a column is, and that rows which do not fit stay out', async () => {
    const { db } = database;
    const { id } = await db.customer.create({ data: { name: 'Sole' } });
    await db.kitchen.create({ data: kitchenRow(id, { name: 'Sole Closed', archivedAt: now }) });
    const runId = await handIn();
    const columns = ['customer', 'kitchen', 'unit', 'kind', 'refrigerant', 'placement', 'tag', 'notes'];
    for (const [i, field] of columns.entries()) await choose(runId, 'column', String(i), field);
    // Said of the row, and how many rows do not fit.
    const { report } = await read(runId);
    expect(report.summary).toMatchObject({ open: 0, errors: 1, units: 3 });
    expect(report.problems.filter((p) => p.severity === 'error')).toMatchObject([{ line: 4, column: 'kitchen' }]);
    expect(report.unfit?.rows).toBe(1);
    await startImport(ctx(), runId);
    await runImport(ctx(), runId);
    expect((await read(runId)).status).toBe('failed');
    await db.importRun.update({ where: { id: runId }, data: { status: 'checked' } });
    await choose(runId, 'answer', 'unfit', 'leave out');
    expect((await read(runId)).report.summary).toMatchObject({ errors: 0, units: 2 });
    await choose(runId, 'column', '7', 'leave');
    expect((await run(runId)).status).toBe('done');
    const units = await db.unit.findMany({ where: { kitchen: { name: 'Sole One' } }, orderBy: { name: 'asc' } });
    expect(units.map((u) => [u.name, u.tag, u.notes])).toEqual([['Big one', 'SO-1', ''], ['Small one', 'SO-2', '']]); // prettier-ignore
    for (const change of [() => choose(runId, 'column', '7', 'notes'), () => startImport(ctx(), runId)])
      await expect(change()).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining('run already') });
    await undoImport(ctx(), runId);
    expect(await db.unit.count()).toBe(0);
    // The next of its form knows all of it.
    expect((await read(await handIn(SHEET.replaceAll('SO-2', 'SO-3')))).choices.columns).toMatchObject({ 6: 'tag', 7: 'leave' });
  });

  it('goes when another of its sheets is chosen', async () => {
    const { runId } = await checkImport(ctx(), { fileName: 'units.xlsx', bytes: await book() });
    await choose(runId, 'column', '2', 'notes');
    await choose(runId, 'kind', 'a fridge', 'reach_in');
    expect((await read(runId)).choices.columns).toMatchObject({ 2: 'notes' });
    await choose(runId, 'sheet', '', '0');
    expect((await read(runId)).choices).toMatchObject({ sheet: 0, columns: {}, values: { kind: { 'a fridge': 'reach_in' } } });
  });

  it('is of an import that is on file', async () => {
    const nobody = crypto.randomUUID();
    const missing = { code: 'not_found', message: 'That import is not on file.' };
    await expect(choose(nobody, 'column', '1', 'unit')).rejects.toMatchObject(missing);
    await expect(startImport(ctx(), nobody)).rejects.toMatchObject(missing);
    for (const id of [nobody, 'x']) await expect(importProgress(ctx(), id)).rejects.toMatchObject(missing);
    await runImport(ctx(), nobody);
  });
});

describe('an import that changed what was on file', () => {
  it('is not taken back over a later change of a unit or a kitchen', async () => {
    const { db } = database;
    const { kitchen, unit } = await haveOneUnit(db, { kitchen: { name: 'Turbot', contactName: '' }, unit: { serial: '' } });
    const { name } = await db.customer.findUniqueOrThrow({ where: { id: kitchen.customerId } });
    const runId = (
      await checkImport(ctx(), {
        fileName: 'more.csv',
        csv: `Customer,Kitchen,Tag,Serial,Contact\n${name},Turbot,${unit.tag},ZX-1,Odile\n`,
      })
    ).runId;
    expect((await run(runId)).report.summary).toMatchObject({ updates: 1, kitchenUpdates: 1 });
    const stand = async () => [(await db.unit.findUniqueOrThrow({ where: { id: unit.id } })).serial, (await db.kitchen.findUniqueOrThrow({ where: { id: kitchen.id } })).contactName]; // prettier-ignore
    expect(await stand()).toEqual(['ZX-1', 'Odile']);
    const later = (of: 'unit' | 'kitchen', by: number) =>
      of === 'unit'
        ? db.unit.update({ where: { id: unit.id }, data: { version: { increment: by } } })
        : db.kitchen.update({ where: { id: kitchen.id }, data: { version: { increment: by } } });
    for (const of of ['unit', 'kitchen'] as const) {
      await later(of, 1);
      await expect(undoImport(ctx(), runId)).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining(`A ${of} that this import changed`) }); // prettier-ignore
      expect(await stand()).toEqual(['ZX-1', 'Odile']);
      await later(of, -1);
    }
    await undoImport(ctx(), runId);
    expect(await stand()).toEqual(['', '']);
  });

  it('is listed with the seven before it, the newest first', async () => {
    const { db } = database;
    await db.importRun.deleteMany();
    for (let i = 0; i < 9; i += 1) await db.importRun.create({ data: { createdById: actor.userId, fileName: `f${i}`, csv: '', rows: i, problems: {}, createdAt: new Date(now.getTime() + i * 1000) } }); // prettier-ignore
    const recent = await recentImports(db);
    expect(recent.map((r) => r.fileName)).toEqual(['f8', 'f7', 'f6', 'f5', 'f4', 'f3', 'f2', 'f1']);
    expect(recent[0]).toMatchObject({ status: 'checked', rows: 8, doneRows: 0 });
  });
});

describe('a workbook', () => {
  it('tells what it unpacks to before it is unpacked', async () => {
    const bytes = await book();
    expect(unpackedSize(bytes)).toBeGreaterThan(bytes.length);
    expect(() => unpackedSize(new TextEncoder().encode('a,b,c'))).toThrow('no zip');
  });
});
