import { addDays, instantOf, type LocalDate } from '../../../lib/core/calendar';
import { poundToKilogram, psiToPascal, fahrenheitToKelvin, ounceToKilogram } from '../../../lib/core/measures';
import { RandomStream } from '../../../lib/core/numerics/random';
import type { SealedWork } from '../../../lib/core/sealed/work';
import type { Prisma } from '../../../lib/database/generated/client';
import { CITY } from '../shop/kitchens';
import type { World } from './world';

const MINUTE = 60_000;

export type RefrigerantRows = {
  certificates: Prisma.CertificateCreateManyInput[];
  cylinders: Prisma.CylinderCreateManyInput[];
  sealedRecords: Prisma.SealedRecordCreateManyInput[];
  sealedSteps: Prisma.SealedStepCreateManyInput[];
  cylinderEntries: Prisma.CylinderEntryCreateManyInput[];
};

/** The shop's refrigerant book: certificates, a set of cylinders, one unit that keeps leaking, and one repair record from end to end. */
export function refrigerantBook(world: World, seed: number): RefrigerantRows {
  const random = new RandomStream(seed, 'refrigerant');
  const rows: RefrigerantRows = { certificates: [], cylinders: [], sealedRecords: [], sealedSteps: [], cylinderEntries: [] };
  const noon = (on: LocalDate) => new Date(instantOf(on, '12:00', CITY.timeZone));
  const createdAt = noon(world.start);
  const holders = world.technicians.map((t, i) => {
    const id = random.uuid();
    const userId = t.row.id as string;
    const kind = (['us_608_universal', 'us_608_type_2'] as const)[i % 2] ?? 'us_608_universal';
    rows.certificates.push({ id, userId, kind, number: `LC-608-${4100 + 37 * i}`, createdAt });
    // A licence of the city's own, which one of them forgot.
    rows.certificates.push({
      id: random.uuid(),
      userId,
      kind: 'other',
      number: `City ${220 + i}`,
      expiresOn: new Date(`${addDays(world.today, i === 2 ? -40 : 200)}T00:00:00Z`),
      createdAt,
    });
    return { id, userId };
  });
  const first = holders[0] as { id: string; userId: string };
  const cylinder = (label: string, refrigerant: string, pounds: number, over: Partial<Prisma.CylinderCreateManyInput> = {}) => {
    const row = { id: random.uuid(), label, refrigerant, contents: 'new', tareKg: poundToKilogram(6.2), firstKg: poundToKilogram(pounds), mostKg: poundToKilogram(pounds), createdAt, ...over } satisfies Prisma.CylinderCreateManyInput; // prettier-ignore
    rows.cylinders.push(row);
    return row;
  };
  const r448 = cylinder('LC-101', 'R448A', 25);
  const r134 = cylinder('LC-102', 'R134a', 30, { withUserId: first.userId });
  const r404 = cylinder('LC-103', 'R404A', 24, { withUserId: holders[1]?.userId });
  const back = cylinder('LC-R7', 'R134a', 30, {
    contents: 'recovered',
    tareKg: poundToKilogram(17.4),
    firstKg: 0,
    note: 'Grey with yellow shoulder, retest 2029.',
  });
  cylinder('LC-R8', 'R404A', 30, { contents: 'recovered', tareKg: poundToKilogram(17.6), firstKg: 0 });
  cylinder('LC-104', 'R290', 11, { mostKg: poundToKilogram(11), note: 'Flammable: stored upright, away from the other cylinders.' });
  const charged = (c: typeof r448, unitId: string, kg: number, at: Date, more: Partial<Prisma.CylinderEntryCreateManyInput> = {}) =>
    rows.cylinderEntries.push({
      id: random.uuid(),
      cylinderId: c.id,
      way: 'charged',
      kg: -kg,
      unitId,
      byUserId: first.userId,
      certificateId: first.id,
      at,
      ...more,
    });
  const checked = (c: typeof r448, gasKg: number, daysAgo: number) =>
    rows.cylinderEntries.push({
      id: random.uuid(),
      cylinderId: c.id,
      way: 'scale_check',
      kg: 0,
      grossAfterKg: c.tareKg + gasKg,
      byUserId: first.userId,
      at: noon(addDays(world.today, -daysAgo)),
    });

  const leaky = world.kitchens
    .flatMap((k) => k.units)
    .find((u) => u.row.refrigerant === 'R448A' && (u.row.chargeKg ?? 0) >= poundToKilogram(15));
  const added = [
    [402, 0.92],
    [196, 0.71],
    [24, 0.88],
  ] as const;
  if (leaky)
    for (const [daysAgo, kg] of added)
      charged(r448, leaky.row.id as string, kg, noon(addDays(world.today, -daysAgo)), { note: 'Topped up to the sight glass.' });
  checked(r448, poundToKilogram(25) - added.reduce((sum, [, kg]) => sum + kg, 0), 6);
  // Somebody used from it and wrote nothing down.
  checked(r404, poundToKilogram(24) - 0.34, 9);
  const repaired = repairedUnit(world);
  if (repaired) repairRecord(rows, repaired, { first, r134, back, random });
  return rows;
}

type Repaired = { unitId: string; visitId: string; chargeKg: number; by: string; reading: { id: string; at: Date } };

/** An R-134a unit whose first reading after a cleaning is its first reading but one: the repair goes before it, and its record begins there. */
function repairedUnit(world: World): Repaired | null {
  for (const unit of world.kitchens.flatMap((k) => k.units)) {
    if (unit.row.refrigerant !== 'R134a' || unit.row.circuitAccess !== 'sealed' || !unit.row.chargeKg) continue;
    const readings = world.out.readings.filter((r) => r.unitId === unit.row.id);
    const [before, after] = readings;
    if (before?.phase !== 'before' || after?.phase !== 'after' || after.visitId !== before.visitId) continue;
    return {
      unitId: unit.row.id as string,
      visitId: after.visitId as string,
      chargeKg: unit.row.chargeKg,
      by: after.byUserId as string,
      reading: { id: after.id as string, at: after.at as Date },
    };
  }
  return null;
}

type Kit = {
  first: { id: string; userId: string };
  r134: Prisma.CylinderCreateManyInput;
  back: Prisma.CylinderCreateManyInput;
  random: RandomStream;
};

function repairRecord(rows: RefrigerantRows, u: Repaired, { first, r134, back, random }: Kit): void {
  const recordId = random.uuid();
  // Before the first reading of that day: what follows it is all of the machine as it is now.
  const start = u.reading.at.getTime() - 200 * MINUTE;
  const own = rows.certificates.find((c) => c.userId === u.by && c.kind !== 'other');
  const certificateId = own?.id ?? first.id;
  rows.sealedRecords.push({ id: recordId, unitId: u.unitId, begunAt: new Date(start) });
  const left = 0.6 * u.chargeKg;
  const grossBack = back.tareKg + 0.0004;
  const grossNew = r134.tareKg + r134.firstKg;
  const at = (minutes: number) => new Date(start + minutes * MINUTE);
  const works: [number, SealedWork][] = [
    [2, { step: 'isolate', provenDead: true, flammable: null }],
    [25, { step: 'recover', cylinderId: back.id as string, cylinderWords: '', startKg: grossBack, endKg: grossBack + left, levelPaGauge: -34_000, recoveredFor: 'reclaim' }],
    [32, { step: 'open', how: 'Cut with a tube cutter' }],
    [55, { step: 'braze', joints: [{ joint: 'copper_copper', count: 3 }, { joint: 'copper_steel', count: 1 }], nitrogen: true, wetRag: true, fireWatchMinutes: 30 }],
    [60, { step: 'drier', drier: 'Norrhold 032, solder', drierBeforeM3: 8e-6, drierNowM3: 14e-6, condenserBeforeM3: null, condenserNowM3: null, capillary: null, tubes: [] }],
    [95, { step: 'pressure_test', platePaGauge: psiToPascal(250), gaugeDivisionPa: psiToPascal(1), start: { at: at(62).toISOString(), paGauge: psiToPascal(240), temperatureK: fahrenheitToKelvin(72) }, end: { at: at(94).toISOString(), paGauge: psiToPascal(239.5), temperatureK: fahrenheitToKelvin(71) } }],
    [150, { step: 'evacuate', limitMicrons: 500, readings: Array.from({ length: 21 }, (_, i) => ({ minutes: i, microns: Math.round(210 + 85 * (1 - Math.exp(-i / 4))) })) }],
    [160, { step: 'charge', cylinderId: r134.id as string, cylinderWords: '', startKg: grossNew, endKg: grossNew - u.chargeKg - ounceToKilogram(0.2), plateKg: u.chargeKg, targetKg: u.chargeKg + ounceToKilogram(0.2), band: [u.chargeKg, u.chargeKg + ounceToKilogram(0.4)] }],
    [205, { step: 'running_check', readingId: u.reading.id, minutes: 45 }],
  ]; // prettier-ignore
  for (const [minutes, work] of works) {
    const id = random.uuid();
    const needs = !['isolate', 'braze', 'running_check'].includes(work.step);
    rows.sealedSteps.push({
      id,
      recordId,
      visitId: u.visitId,
      unitId: u.unitId,
      step: work.step,
      work,
      certificateId: needs ? certificateId : null,
      at: at(minutes),
      byUserId: u.by,
    });
    if (work.step !== 'recover' && work.step !== 'charge') continue;
    rows.cylinderEntries.push({
      id,
      stepId: id,
      cylinderId: work.cylinderId as string,
      way: work.step === 'charge' ? 'charged' : 'recovered',
      kg: work.endKg - work.startKg,
      grossBeforeKg: work.startKg,
      grossAfterKg: work.endKg,
      recoveredFor: work.step === 'recover' ? work.recoveredFor : null,
      unitId: u.unitId,
      visitId: u.visitId,
      byUserId: u.by,
      certificateId,
      at: at(minutes),
    });
  }
}
