import { readFile } from 'node:fs/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { importRun } from '@/lib/features/fleet-csv/reads/imports';
import { unpackedSize } from '@/lib/features/fleet-csv/verbs/read-xlsx';
import { checkImport } from '@/lib/features/fleet-csv/verbs/check-import';
import { chooseInSheet } from '@/lib/features/fleet-csv/verbs/choose';
import { runImport, startImport } from '@/lib/features/fleet-csv/verbs/run-import';
import { undoImport } from '@/lib/features/fleet-csv/verbs/undo-import';
import { haveTaskKinds, personRow, visitRow } from '../../support/factories';
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

describe('a workbook', () => {
  it('tells what it unpacks to before it is unpacked', async () => {
    const bytes = await book();
    expect(unpackedSize(bytes)).toBeGreaterThan(bytes.length);
    expect(() => unpackedSize(new TextEncoder().encode('a,b,c'))).toThrow('no zip');
  });
});
