import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { SEALED_STEPS, type SealedStep } from '@/lib/core/sealed';
import type { Payloads } from '@/lib/core/tablet';
import { handlingOf } from '@/lib/features/refrigerant-book/reads/handling';
import { recordsOfUnit } from '@/lib/features/sealed/reads/records';
import { openRecord, type sealedEntry } from '@/lib/features/sealed/reads/steps';
import { useDatabase } from '../../support/database';
import { haveVisit, MORNING, Tablet } from '../tablet/a-tablet';

const database = useDatabase();
type Step = Payloads['sealed.step'];

async function begun(over: { expiresOn?: Date | null } = {}) {
  const { db } = database;
  const shop = await haveVisit(db);
  const certificate = await db.certificate.create({
    data: { userId: shop.person.id, kind: 'us_608_universal', number: 'U-17', expiresOn: over.expiresOn ?? null },
  });
  const cylinder = await db.cylinder.create({
    data: {
      label: `C-${randomUUID().slice(0, 6)}`,
      refrigerant: shop.unit.refrigerant,
      contents: 'new',
      tareKg: 5,
      firstKg: 8,
      mostKg: 11.34,
    },
  });
  const recordId = randomUUID();
  const step = (p: Partial<Step> & Pick<Step, 'step' | 'work'>): Step => ({
    recordId,
    unitId: shop.unit.id,
    skippedWhy: '',
    certificateId: certificate.id,
    overruledBy: '',
    overruledWhy: '',
    note: '',
    ...p,
  });
  const charge = (startKg: number, endKg: number, more: Partial<Step> = {}) =>
    step({ step: 'charge', work: { step: 'charge', cylinderId: cylinder.id, cylinderWords: '', startKg, endKg, plateKg: 0.24, targetKg: 0.25, band: [0.245, 0.255] }, ...more }); // prettier-ignore
  const book = async () =>
    (await db.cylinderEntry.findMany({ where: { cylinderId: cylinder.id }, orderBy: { at: 'asc' } })).map((e) => Math.round(e.kg * 1000));
  return { ...shop, db, certificate, cylinder, recordId, step, charge, book, tablet: new Tablet(db, shop.person) };
}

describe('a repair record from a tablet', () => {
  it('a charge is in the refrigerant book once, however often it is sent, and written anew it replaces what was there', async () => {
    const { db, visit, charge, tablet, book, cylinder, person } = await begun();
    const first = tablet.make(visit.id, 'sealed.step', charge(13, 12.75));
    expect((await tablet.send([first])).results[0]).toMatchObject({ outcome: 'applied' });
    await tablet.send([first]);
    expect(await book()).toEqual([-250]);
    await tablet.send([tablet.make(visit.id, 'sealed.step', charge(13, 12.7))]);
    expect((await book()).toSorted((a, b) => a - b)).toEqual([-300, -250, 250]);
    const { cylinders } = await handlingOf(db, person.id);
    expect(cylinders.find((c) => c.id === cylinder.id)?.bookKg).toBeCloseTo(7.7, 9);
    const round = await tablet.refresh();
    expect(round.changed[0]?.entries.sealed?.map((s) => s.step)).toEqual(['charge']);
    expect(round.me.certificates).toMatchObject([{ number: 'U-17' }]);
  });

  it('what was weighed is in the book with the scale before and after, and whose certificate and visit it was', async () => {
    const { db, visit, step, charge, tablet, cylinder, person, unit, certificate } = await begun();
    const work = { step: 'recover', cylinderId: cylinder.id, cylinderWords: '', startKg: 13, endKg: 13.2, levelPaGauge: null, recoveredFor: 'reclaim' } as const; // prettier-ignore
    const [out, back] = [
      tablet.make(visit.id, 'sealed.step', step({ step: 'recover', work })),
      tablet.make(visit.id, 'sealed.step', charge(13.2, 12.95)),
    ];
    expect((await tablet.send([out, back])).results.map((r) => r.outcome)).toEqual(['applied', 'applied']);
    const lines = await db.cylinderEntry.findMany({ where: { cylinderId: cylinder.id }, orderBy: { at: 'asc' } });
    const common = { unitId: unit.id, visitId: visit.id, byUserId: person.id, certificateId: certificate.id, correctsId: null, note: '' };
    expect(lines).toMatchObject([
      { ...common, id: out.id, stepId: out.id, way: 'recovered', grossBeforeKg: 13, grossAfterKg: 13.2, recoveredFor: 'reclaim', at: new Date(out.madeAt) },
      { ...common, id: back.id, stepId: back.id, way: 'charged', grossBeforeKg: 13.2, grossAfterKg: 12.95, recoveredFor: null, at: new Date(back.madeAt) },
    ]); // prettier-ignore
    // Left out after all: the line is taken back, and says why.
    await tablet.send([tablet.make(visit.id, 'sealed.step', step({ step: 'recover', work: null, skippedWhy: 'It was empty' }))]);
    expect(await db.cylinderEntry.findFirst({ where: { correctsId: out.id } })).toMatchObject({
      kg: expect.closeTo(-0.2, 9),
      recoveredFor: 'reclaim',
      note: 'Written anew on the repair record.',
    });
  });

  it('another gas than the unit runs on is in the book, and the office is told; of a cylinder that was gone nothing is', async () => {
    const { db, visit, charge, tablet, cylinder, book } = await begun();
    await db.cylinder.update({ where: { id: cylinder.id }, data: { refrigerant: 'R404A' } });
    const send = async (startKg: number, endKg: number) =>
      (await tablet.send([tablet.make(visit.id, 'sealed.step', charge(startKg, endKg))])).results[0];
    expect(await send(13, 12.75)).toMatchObject({
      outcome: 'conflict',
      note: expect.stringContaining(`${cylinder.label} holds R-404A, but Reach-in runs on R-134a.`),
    });
    expect(await book()).toEqual([-250]);
    await db.cylinder.update({ where: { id: cylinder.id }, data: { refrigerant: 'R134a', goneAt: MORNING, goneWhy: 'handed in' } });
    expect(await send(13, 12.7)).toMatchObject({
      outcome: 'conflict',
      note: expect.stringContaining(`${cylinder.label} was gone by then (handed in); what was weighed is not in the book.`),
    });
    // What the step had put there before is taken back all the same.
    expect((await book()).toSorted((a, b) => a - b)).toEqual([-250, 250]);
  });

  it('a record that was not finished is with its unit at the next visit', async () => {
    const { db, visit, unit, person, step, tablet } = await begun();
    // One of the day before that was left so, too: the latest is gone on with.
    const skipped = { id: randomUUID(), visitId: visit.id, unitId: unit.id, step: 'isolate' as const, skippedWhy: 'Unplugged', at: MORNING, byUserId: person.id }; // prettier-ignore
    await db.sealedRecord.create({ data: { id: randomUUID(), unitId: unit.id, begunAt: new Date(MORNING.getTime() - 86_400_000) } }).then((r) => db.sealedStep.create({ data: { ...skipped, recordId: r.id } })); // prettier-ignore
    await tablet.send([tablet.make(visit.id, 'sealed.step', step({ step: 'open', work: { step: 'open', how: 'cut' } }))]);
    expect((await tablet.refresh()).changed[0]?.units[0]?.openSealed?.steps.map((s) => s.step)).toEqual(['open']);
  });

  it('without a certificate there is no step on refrigerant, unless somebody answers for it by name', async () => {
    const { visit, charge, tablet, book } = await begun();
    const send = async (more: Partial<Step>) =>
      (await tablet.send([tablet.make(visit.id, 'sealed.step', charge(13, 12.75, more))])).results[0];
    expect(await send({ certificateId: null })).toMatchObject({ outcome: 'rejected', note: expect.stringMatching(/needs a certificate/) });
    expect(await book()).toEqual([]);
    const answered = await send({ certificateId: null, overruledBy: 'R. Boss', overruledWhy: 'Card is being renewed' });
    expect(answered).toMatchObject({ outcome: 'conflict', note: expect.stringMatching(/R. Boss answers for it/) });
    expect(await book()).toEqual([-250]);
  });

  it('one that ran out does not hold, and what touches no refrigerant asks for none', async () => {
    const { visit, charge, step, tablet } = await begun({ expiresOn: new Date(MORNING.getTime() - 3 * 86_400_000) });
    const reply = await tablet.send([
      tablet.make(visit.id, 'sealed.step', charge(13, 12.75)),
      tablet.make(visit.id, 'sealed.step', step({ step: 'isolate', work: { step: 'isolate', provenDead: true, flammable: null }, certificateId: null })),
      tablet.make(visit.id, 'sealed.step', step({ step: 'recover', work: null, skippedWhy: 'It was empty', certificateId: null })),
    ]); // prettier-ignore
    expect(reply.results.map((r) => r.outcome)).toEqual(['rejected', 'applied', 'applied']);
    expect(reply.results[0]?.note).toMatch(/did not hold on that day/);
  });

  it('a cylinder that is not on file is told to the office, and what belongs elsewhere is refused', async () => {
    const { visit, step, tablet } = await begun();
    const work = {
      step: 'recover',
      cylinderId: null,
      cylinderWords: 'grey one',
      startKg: 6,
      endKg: 6.1,
      levelPaGauge: null,
      recoveredFor: 'reuse',
    } as const;
    const reply = await tablet.send([
      tablet.make(visit.id, 'sealed.step', step({ step: 'recover', work })),
      tablet.make(visit.id, 'sealed.step', step({ step: 'open', work })),
      tablet.make(visit.id, 'sealed.step', step({ step: 'recover', work: { ...work, endKg: 5 } })),
    ]); // prettier-ignore
    expect(reply.results.map((r) => r.outcome)).toEqual(['conflict', 'rejected', 'rejected']);
    expect(reply.results[0]?.note).toMatch(/“grey one” is not on file.*100 g/);
  });
});

describe('the repair records of a unit', () => {
  it('stand latest first, each with its standing steps in the order of the work, not of the day', async () => {
    const { db, visit, unit, step, charge, tablet, person, certificate, cylinder, recordId } = await begun();
    const open = step({ step: 'open', work: { step: 'open', how: 'cut' } });
    await tablet.send([
      tablet.make(visit.id, 'sealed.step', charge(13, 12.75)),
      tablet.make(visit.id, 'sealed.step', { ...open, note: 'At the stub' }),
      tablet.make(visit.id, 'sealed.step', charge(13, 12.7)),
      tablet.make(visit.id, 'sealed.step', step({ step: 'isolate', work: null, skippedWhy: 'Unplugged', certificateId: null })),
    ]);
    const [record, ...none] = await recordsOfUnit(db, unit.id);
    expect(none).toEqual([]);
    expect(record).toMatchObject({
      id: recordId,
      cylinders: { [cylinder.id]: cylinder.label },
      steps: [
        { step: 'isolate', work: null, skippedWhy: 'Unplugged', certificate: null },
        {
          step: 'open',
          work: { step: 'open', how: 'cut' },
          note: 'At the stub',
          by: person.name,
          certificate: { kind: certificate.kind, number: 'U-17' },
        },
        { step: 'charge', work: { step: 'charge', endKg: 12.7 } },
      ],
    });
    const later = randomUUID();
    await tablet.send([tablet.make(visit.id, 'sealed.step', { ...open, recordId: later })]);
    expect((await recordsOfUnit(db, unit.id)).map((r) => r.id)).toEqual([later, recordId]);
    expect(await recordsOfUnit(db, randomUUID())).toEqual([]);
  });

  it('one is open until all its steps stand; one without a step is none', () => {
    const row = (name: SealedStep): Parameters<typeof sealedEntry>[0] => ({
      id: randomUUID(), recordId: 'r', visitId: 'v', unitId: 'u', step: name, work: null, skippedWhy: 'Left out', certificateId: null, overruledBy: 'A. Boss',
      overruledWhy: 'Card lost', note: 'n', at: MORNING, byUserId: 'p', deviceId: null, supersededAt: null,
    }); // prettier-ignore
    const all = SEALED_STEPS.map(row);
    expect(openRecord([])).toBeNull();
    expect(openRecord([{ id: 'r', steps: [] }])).toBeNull();
    expect(openRecord([{ id: 'r', steps: all }])).toBeNull();
    const missing = all.slice(1);
    expect(
      openRecord([
        { id: 'r', steps: missing },
        { id: 'older', steps: all },
      ]),
    ).toEqual({
      recordId: 'r',
      steps: missing.map(({ visitId: _v, byUserId: _b, deviceId: _d, supersededAt: _s, ...entry }) => ({
        ...entry,
        at: MORNING.toISOString(),
      })),
    });
  });
});

describe('what the database refuses, whoever asks', () => {
  const refused = (work: Promise<unknown>, rule: RegExp) => expect(work).rejects.toThrow(rule);

  it('the refrigerant book is only ever added to, and taken back whole', async () => {
    const { db, visit, charge, tablet, cylinder, person, unit, certificate } = await begun();
    await tablet.send([tablet.make(visit.id, 'sealed.step', charge(13, 12.75))]);
    const entry = await db.cylinderEntry.findFirstOrThrow({ where: { cylinderId: cylinder.id } });
    await refused(db.cylinderEntry.update({ where: { id: entry.id }, data: { kg: -1 } }), /only ever added to/);
    await refused(db.cylinderEntry.delete({ where: { id: entry.id } }), /only ever added to/);
    const line = { cylinderId: cylinder.id, way: 'charged', unitId: unit.id, byUserId: person.id, at: MORNING } as const;
    await refused(db.cylinderEntry.create({ data: { ...line, kg: 0.2, correctsId: entry.id, note: 'slip' } }), /taken back whole/);
    await refused(db.cylinderEntry.create({ data: { ...line, kg: 0.25, certificateId: certificate.id } }), /cylinder_entry_sign/);
    await refused(db.cylinderEntry.create({ data: { ...line, kg: -0.25 } }), /cylinder_entry_certified/);
    await refused(
      db.cylinderEntry.create({ data: { ...line, unitId: null, kg: -0.25, certificateId: certificate.id } }),
      /cylinder_entry_unit/,
    );
    await db.cylinder.update({ where: { id: cylinder.id }, data: { goneAt: new Date(MORNING.getTime() - 1000), goneWhy: 'handed in' } });
    await refused(db.cylinderEntry.create({ data: { ...line, kg: -0.1, certificateId: certificate.id } }), /that cylinder is gone/);
  });

  it('a step has work or a reason, a certificate that holds, and is never changed', async () => {
    const { db, visit, step, tablet, person, unit, recordId, certificate } = await begun({
      expiresOn: new Date(MORNING.getTime() - 3 * 86_400_000),
    });
    await tablet.send([
      tablet.make(visit.id, 'sealed.step', step({ step: 'isolate', work: { step: 'isolate', provenDead: true, flammable: null } })),
    ]);
    const one = await db.sealedStep.findFirstOrThrow({ where: { recordId } });
    await refused(db.sealedStep.update({ where: { id: one.id }, data: { note: 'changed' } }), /never changed/);
    await refused(db.sealedStep.delete({ where: { id: one.id } }), /never changed/);
    const row = { recordId, visitId: visit.id, unitId: unit.id, step: 'open', at: MORNING, byUserId: person.id } as const;
    const work = { step: 'open', how: 'cut' };
    await refused(db.sealedStep.create({ data: { ...row, id: randomUUID() } }), /sealed_step_done_or_reason/);
    await refused(db.sealedStep.create({ data: { ...row, id: randomUUID(), work } }), /sealed_step_certified/);
    await refused(db.sealedStep.create({ data: { ...row, id: randomUUID(), work, overruledBy: 'R. Boss' } }), /sealed_step_certified/);
    await refused(db.sealedStep.create({ data: { ...row, id: randomUUID(), work, certificateId: certificate.id } }), /does not hold/);
  });

  it('certificates and cylinders say what they are, a line taken back why, and a step stands once', async () => {
    const { db, visit, charge, step, tablet, cylinder, person, unit, recordId, certificate } = await begun();
    await refused(db.certificate.create({ data: { userId: person.id, kind: 'other', number: '' } }), /certificate_number/);
    const weights = { label: `X-${randomUUID()}`, refrigerant: 'R134a', contents: 'new', tareKg: 5, firstKg: 8, mostKg: 11 } as const;
    for (const over of [{ label: '' }, { tareKg: 0 }, { firstKg: -1 }, { mostKg: 0 }, { firstKg: 12 }])
      await refused(db.cylinder.create({ data: { ...weights, ...over } }), /cylinder_weights/);
    await refused(db.cylinder.update({ where: { id: cylinder.id }, data: { goneAt: MORNING } }), /cylinder_gone_has_reason/);
    const entry = tablet.make(visit.id, 'sealed.step', charge(13, 12.75));
    await tablet.send([entry]);
    const line = { cylinderId: cylinder.id, way: 'charged', unitId: unit.id, byUserId: person.id, at: MORNING } as const;
    await refused(db.cylinderEntry.create({ data: { ...line, kg: 0.25, correctsId: entry.id } }), /cylinder_entry_corrected_has_reason/);
    await refused(
      db.cylinderEntry.create({ data: { ...line, kg: -0.25, certificateId: certificate.id, stepId: entry.id } }),
      /cylinder_entry_one_a_step|Unique constraint/,
    );
    await refused(db.$executeRaw`TRUNCATE "CylinderEntry"`, /only ever added to/);
    const { recordId: _, ...again } = step({ step: 'charge', work: null, skippedWhy: 'twice' });
    await refused(
      db.sealedStep.create({
        data: { ...again, work: undefined, id: randomUUID(), recordId, visitId: visit.id, at: MORNING, byUserId: person.id },
      }),
      /sealed_step_one_current|Unique constraint/,
    );
  });
});
