import { beforeEach, describe, expect, it } from 'vitest';
import { whole } from '../../support/whole';
import { exportFleet, exportName, fleetTemplate, importProblems } from '@/lib/features/fleet-csv/verbs/export-fleet';
import { checkImport } from '@/lib/features/fleet-csv/verbs/check-import';
import { importProgress } from '@/lib/features/fleet-csv/verbs/import-progress';
import { runImport, startImport } from '@/lib/features/fleet-csv/verbs/run-import';
import { importRun } from '@/lib/features/fleet-csv/reads/imports';
import { undoImport } from '@/lib/features/fleet-csv/verbs/undo-import';
import { refusedBy } from '@/lib/database/constraints';
import { createUnit } from '@/lib/features/equipment/verbs/create-unit';
import { haveOneUnit, jobRow, kitchenRow, unitRow } from '../../support/factories';
import { useImportDesk } from '../../support/import-desk';
import { fleetCsv } from '../../support/fleet-csv';

const { database, now, actor, ctx, put, counts } = useImportDesk();
const clear = async () => {
  const { db } = database;
  await db.task.deleteMany();
  await db.unit.deleteMany();
  await db.kitchen.deleteMany();
  await db.customer.deleteMany();
};

describe('a fleet of two kitchens', () => {
  const CSV = [
    'customer,kitchen,address,time_zone,service_hours,unit,tag,kind,placement,refrigerant,charge_oz,notes,coil_cleaning_last_done',
    'Maple,Maple One,"1 Quay, Port",America/Denver,Mon-Fri 06:00-10:30,Ant,M-1,reach_in,bar,R290,5,"Says ""hum""",2026-02-10',
    'Maple,Maple One,,,,Bee,,prep_table,line,R134a,,,',
    'maple,Maple Two,,,,Cat,M-3,ice_machine,outdoors,R404A,40,,',
  ].join('\n');
  const rows = async () => (await whole(exportFleet(ctx()))).split('\r\n').filter((row) => /maple/i.test(row));
  let runId = '';

  beforeEach(async () => {
    await clear();
    const run = await put(CSV);
    expect([run.status, run.report.problems]).toEqual(['done', []]);
    runId = run.id;
  });

  it('is on file as it was typed, what was left out by the usual, and who brought it in when', async () => {
    const { db } = database;
    expect((await importRun(db, runId))?.report.summary).toMatchObject({
      customers: 1, newKitchens: 2, kitchens: 2, units: 3, flammable: 1, errors: 0, rowsOnFile: 0, updates: 0, open: 0,
    }); // prettier-ignore
    expect(await db.customer.findMany()).toMatchObject([{ name: 'Maple' }]);
    const kitchens = await db.kitchen.findMany({
      orderBy: { name: 'asc' },
      include: { units: { orderBy: { name: 'asc' }, include: { tasks: true } } },
    });
    expect(kitchens).toMatchObject([
      {
        name: 'Maple One', address: '1 Quay, Port', timeZone: 'America/Denver',
        units: [{ name: 'Ant', tag: 'M-1', kind: 'reach_in', notes: 'Says "hum"' }, { name: 'Bee', kind: 'prep_table', chargeKg: null }],
      },
      { name: 'Maple Two', timeZone: 'America/Chicago', units: [{ name: 'Cat', tag: 'M-3', placement: 'outdoors' }] },
    ]); // prettier-ignore
    const [ant, bee] = kitchens[0]?.units ?? [];
    expect(ant?.chargeKg).toBeCloseTo(5 * 0.028349523125, 9);
    expect(bee?.tag).toMatch(/^[0-9A-Z]{6,}$/);
    const cleaning = (unit: typeof ant) => unit?.tasks.find((t) => t.kindKey === 'coil_cleaning');
    expect([cleaning(ant)?.lastDoneOn, cleaning(bee)?.lastDoneOn]).toEqual([new Date('2026-02-10'), null]);
    expect(await db.auditEntry.findFirst({ where: { entityId: runId } })).toMatchObject({
      action: 'fleet.imported', entity: 'ImportRun', userId: actor.userId, at: now, detail: { units: 3, kitchens: 2 },
    }); // prettier-ignore
  });

  it('comes out by customer, kitchen and unit, and goes in again the same; nothing that is out of use', async () => {
    const { db } = database;
    const first = await whole(exportFleet(ctx()));
    expect((await rows()).map((row) => row.split(',')[1])).toEqual(['Maple One', 'Maple One', 'Maple Two']);
    await clear();
    const again = await put(first);
    expect([again.status, again.report.problems]).toEqual(['done', []]);
    expect(await whole(exportFleet(ctx()))).toBe(first);
    await db.unit.updateMany({ where: { tag: 'M-1' }, data: { archivedAt: now } });
    await db.kitchen.updateMany({ where: { name: 'Maple Two' }, data: { archivedAt: now } });
    expect(await rows()).toHaveLength(1);
    await db.unit.updateMany({ data: { archivedAt: now } });
    expect(await rows()).toEqual([]);
    // Eleven in the evening of the fourth, in Chicago.
    for (const at of [now, new Date('2026-03-05T05:00:00Z')]) expect(await exportName({ ...ctx(), now: at })).toBe('fleet-2026-03-04.csv');
  });

  it('is refused a second time, unit by unit, and what to mend comes as a file', async () => {
    const before = await counts();
    const run = await put(await whole(exportFleet(ctx())));
    expect([run.status, run.report.summary.errors]).toEqual(['checked', 6]);
    expect(new Set(run.report.problems.map((p) => p.column))).toEqual(new Set(['tag', 'unit']));
    expect(await counts()).toEqual(before);
    // A page reads only as many as it shows, and how many there are.
    const page = await importRun(database.db, run.id, 2);
    expect(page?.report).toEqual({ ...run.report, problems: run.report.problems.slice(0, 2) });
    expect(page?.kept).toBe(6);
    const file = (await importProblems(ctx(), run.id)).split('\r\n');
    expect(file[0]).toBe('\uFEFFline,column,value,what to do,kind');
    expect(file).toHaveLength(8);
    expect(file[1]).toMatch(/^2,(tag|unit),.*,error$/);
    for (const id of ['x', crypto.randomUUID()]) await expect(importProblems(ctx(), id)).rejects.toMatchObject({ code: 'not_found' });
    expect(await importRun(database.db, crypto.randomUUID())).toBeNull();
  });

  it('adds to kitchens on file and leaves their own fields alone', async () => {
    const before = await counts();
    const run = await put(
      'customer,kitchen,unit,kind,placement,refrigerant,address\nMAPLE,"maple  one",New cooler,reach_in,bar,R290,Elsewhere',
    );
    expect(run.status).toBe('done');
    expect(run.report.problems).toMatchObject([{ line: 2, column: 'address', severity: 'note' }]);
    expect(await counts()).toEqual({ ...before, units: before.units + 1, tasks: before.tasks + 3 });
    const added = await database.db.unit.findFirstOrThrow({ where: { name: 'New cooler' }, include: { kitchen: true } });
    expect(added.kitchen.address).toBe('1 Quay, Port');
  });

  it('is taken back only while nothing is written of its units, and what stands in the way is said', async () => {
    const { db } = database;
    const { id: unitId, kitchenId } = await db.unit.findFirstOrThrow({ where: { tag: 'M-1' } });
    const refused = async (said: string) =>
      expect(undoImport(ctx(), runId)).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining(said) });
    const { id } = await db.warranty.create({ data: { unitId, what: 'Compressor', until: new Date('2027-01-01') } });
    await db.leakTest.create({ data: { unitId, on: new Date('2026-03-01'), kind: 'initial', passed: true, byUserId: actor.userId } });
    await refused('It cannot be taken back any more: 1 warranty, 1 leak test. Take single units out of use instead.');
    await db.warranty.delete({ where: { id } });
    await db.leakTest.deleteMany();
    await db.unitEvent.create({ data: { unitId, kind: 'washed_through', at: now } });
    await db.job.create({ data: jobRow({ id: unitId, kitchenId }) });
    await db.unit.update({ where: { id: unitId }, data: { version: 2 } });
    await refused('1 event, 1 job, 1 unit changed since');
    await db.job.deleteMany();
    await db.unitEvent.deleteMany();
    await db.unit.update({ where: { id: unitId }, data: { version: 1 } });
    await db.kitchen.create({ data: kitchenRow((await db.customer.findFirstOrThrow()).id, { name: 'Maple Three' }) });
    const late = await db.unit.create({ data: unitRow(kitchenId, { name: 'Late' }) });
    await refused('1 unit added since, 1 kitchen added since');
    await db.unit.delete({ where: { id: late.id } });
    await db.kitchen.deleteMany({ where: { name: 'Maple Three' } });
    expect(await undoImport(ctx(), runId)).toEqual({ units: 3 });
    expect(await counts()).toEqual({ customers: 0, kitchens: 0, units: 0, tasks: 0 });
    expect(await db.importRun.findUnique({ where: { id: runId } })).toMatchObject({ status: 'undone', undoneAt: now });
    expect(await db.auditEntry.findFirst({ where: { entityId: runId, action: 'fleet.import_undone' } })).toMatchObject({
      entity: 'ImportRun', userId: actor.userId, detail: { taken: '3 units' },
    }); // prettier-ignore
  });
});

describe('all or nothing', () => {
  const twoRows = (tag: string) =>
    `customer,kitchen,unit,tag,kind,placement,refrigerant\nElm,Elm One,A,${tag}-1,reach_in,bar,R290\nElm,Elm One,B,${tag}-2,reach_in,bar,R290`;

  it('writes nothing when one row of many is bad, and names it', async () => {
    const before = await counts();
    const lines = fleetCsv(300)
      .replaceAll('Chain', 'Other chain')
      .replaceAll(/T-(\d)/g, 'OT-$1')
      .split('\r\n');
    lines[207] = lines[207]?.replace(/R290|R134a|R404A|R448A|R600a/, 'R000') ?? '';
    const run = await put(lines.join('\n'));
    expect(run.status).toBe('checked');
    expect(run.report.problems).toMatchObject([{ line: 208, column: 'refrigerant', value: 'R000', severity: 'error' }]);
    expect(await counts()).toEqual(before);
  });

  it('checks again before it writes: what someone put on file meanwhile stops it whole', async () => {
    const { kitchen } = await haveOneUnit(database.db);
    const before = await counts();
    const { runId } = await checkImport(ctx(), { fileName: 'x.csv', csv: twoRows('RACE') });
    await createUnit(ctx(), {
      kitchenId: kitchen.id,
      name: 'Squeezed in',
      tag: 'RACE-2',
      kind: 'reach_in',
      placement: 'bar',
      refrigerant: 'R290',
      chargeKg: null,
      application: 'medium',
      expansion: 'capillary',
      circuitAccess: 'sealed',
      condenserKind: 'fin_and_tube',
      cutoutPaGauge: null,
      boxSetK: null,
      headControl: false,
      roofWork: false,
      make: '',
      model: '',
      serial: '',
      notes: '',
    });
    await startImport(ctx(), runId);
    await runImport(ctx(), runId);
    const run = await importRun(database.db, runId);
    expect(run?.status).toBe('failed');
    expect(run?.report.problems).toMatchObject([{ line: 3, column: 'tag' }]);
    expect(await counts()).toEqual({ ...before, units: before.units + 1, tasks: before.tasks + 3 });
  });

  it('leaves nothing behind when the database refuses in the middle', async () => {
    const before = await counts();
    const { runId } = await checkImport(ctx(), { fileName: 'x.csv', csv: twoRows('MID') });
    await startImport(ctx(), runId);
    await database.db
      .$executeRaw`CREATE OR REPLACE FUNCTION refuse_task() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'disk is full'; END $$`;
    await database.db.$executeRaw`CREATE TRIGGER refuse_task BEFORE INSERT ON "Task" FOR EACH ROW EXECUTE FUNCTION refuse_task()`;
    try {
      await expect(runImport(ctx(), runId)).rejects.toThrow('disk is full');
    } finally {
      await database.db.$executeRaw`DROP TRIGGER refuse_task ON "Task"`;
    }
    expect(await counts()).toEqual(before);
    expect(await importProgress(ctx(), runId)).toEqual({ status: 'failed', rows: 2, doneRows: 0 });
  });

  it('cannot be started twice', async () => {
    const { runId } = await checkImport(ctx(), { fileName: 'x.csv', csv: twoRows('TWICE') });
    const both = await Promise.allSettled([startImport(ctx(), runId), startImport(ctx(), runId)]);
    expect(both.map((r) => r.status).sort()).toEqual(['fulfilled', 'rejected']);
    await Promise.all([runImport(ctx(), runId), runImport(ctx(), runId)]);
    expect(await database.db.unit.count({ where: { tag: { startsWith: 'TWICE' } } })).toBe(2);
  });

  it('tells an import that was cut off with the server from one that runs', async () => {
    const { runId } = await checkImport(ctx(), { fileName: 'x.csv', csv: twoRows('CUT') });
    await startImport(ctx(), runId);
    expect((await importProgress(ctx(), runId)).status).toBe('running');
    const later = new Date(now.getTime() + 60_000);
    await database.db.$transaction(async (tx) => {
      await tx.$executeRaw`SELECT pg_advisory_xact_lock(7210003)`;
      expect((await importProgress({ ...ctx(), now: later }, runId)).status).toBe('running');
    });
    expect((await importProgress({ ...ctx(), now: later }, runId)).status).toBe('failed');
  });
});

describe('files as they come', () => {
  it('reads its own template, marks and all', async () => {
    const run = await put(await fleetTemplate(ctx()));
    expect([run.status, run.report.summary.units]).toEqual(['done', 3]);
  });

  it.each([
    ['semicolons', 'customer;kitchen;unit;kind;placement;refrigerant\nBay;Bay;A;reach_in;bar;R290'],
    ['tabs', 'customer\tkitchen\tunit\tkind\tplacement\trefrigerant\nCay\tCay\tA\treach_in\tbar\tR290'],
  ])('reads %s', async (_, csv) => expect((await put(csv)).status).toBe('done'));

  it('counts lines as an editor does, over values that run across lines', async () => {
    const run = await put(
      'customer,kitchen,unit,kind,placement,refrigerant,notes\nDay,Day,A,reach_in,bar,R290,"one\ntwo\nthree"\n\nDay,Day,B,nothing,bar,R290,',
    );
    expect(run.report.problems).toMatchObject([{ line: 6, column: 'kind', value: 'nothing' }]);
  });

  it.each([
    ['a broken quotation mark', 'customer,kitchen,unit,kind,placement,refrigerant\nDay,Day,"A,reach_in,bar,R290', 'quotation mark'],
    ['letters that are not UTF-8', 'customer,kitchen,unit,kind,placement,refrigerant\nD\uFFFDy,Day,A,reach_in,bar,R290', 'CSV UTF-8'],
    ['a spreadsheet instead of a text', 'PK\u0003\u0004\u0000\u0000', 'not a text file'],
    ['a file of something else', 'a,b\n1,2', 'No unit was found'],
  ])('says what is wrong with %s', async (_, csv, message) => {
    const run = await put(csv);
    expect(run.report.problems.map((p) => p.message).join()).toContain(message);
  });

  it('takes nothing at all for an answer', async () => {
    await expect(checkImport(ctx(), { fileName: 'x.csv', csv: ' \n' })).rejects.toMatchObject({ code: 'invalid', field: 'file' });
    await expect(checkImport(ctx(), { fileName: 'x.csv', csv: 'x'.repeat(10_000_001) })).rejects.toMatchObject({ code: 'too_large' });
  });
});

it('holds unit names once in a kitchen in the database itself', async () => {
  const { unit } = await haveOneUnit(database.db);
  const { id: _, tag: __, compressorMap: ___, ...copy } = unit;
  const error = await database.db.unit.create({ data: { ...copy, tag: 'COPY', name: unit.name.toUpperCase() } }).catch((e: unknown) => e);
  expect(refusedBy(error)).toBe('unit_name_in_kitchen');
});
