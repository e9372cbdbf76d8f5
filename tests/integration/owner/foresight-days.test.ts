import { describe, expect, it } from 'vitest';
import { Z80 } from '@/lib/core/condenser/bands';
import { GRADES } from '@/lib/core/findings/grades';
import { RandomStream } from '@/lib/core/numerics/random';
import { judgedForesights, surprises, type JudgedRow } from '@/lib/features/owner/reads/foresights';
import { exportLooks } from '@/lib/features/owner/verbs/export-looks';
import { keepForesightDays } from '@/lib/features/owner/verbs/keep-foresight-days';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow, unitRow, visitRow } from '../../support/factories';

const database = useDatabase();
const DAY = 86_400_000;
const START = new Date('2026-01-05T00:00:00Z');
const [FROM, TO] = ['2026-01-20', '2026-03-20'];
const ranks = GRADES.coil.map((g) => g.grade);

/** The same told by going through every look, in the test's own words. */
async function theLongWay(): Promise<Map<string, number[]>> {
  const rows = await database.db.foresight.findMany({ include: { unit: { select: { kind: true } } } });
  const groups = new Map<string, number[]>();
  const sqr = (x: number) => x * x;
  for (const f of rows) {
    const day = f.on.toISOString().slice(0, 10);
    if (f.evidence === 0 || day < FROM || day >= TO) continue;
    const rank = f.found === null ? -1 : ranks.findIndex((g) => g === f.found);
    const graded = rank >= 0;
    const late = (f.chances[3] ?? 0) + (f.chances[4] ?? 0);
    const mean = f.chances.reduce((sum, p, i) => sum + i * p, 0);
    const matted = rank >= ranks.indexOf('matted');
    const told = [
      graded, graded && f.likely.includes(rank), graded ? f.likelyChance : 0, matted, graded ? late : 0, graded ? late * (1 - late) : 0,
      matted && f.mattedFrom !== null && f.on < f.mattedFrom, graded && !matted && f.mattedTo !== null && f.on > f.mattedTo,
      f.readLnK !== null, f.readLnK !== null && Math.abs(f.readLnK - f.lnK) <= Z80 * Math.sqrt(sqr(f.lnKSd) + sqr(f.readLnKSd ?? 0)),
      graded ? rank - mean : 0, graded ? sqr(rank - mean) : 0,
    ].map(Number); // prettier-ignore
    const of = ['all ', `month ${day.slice(0, 7)}`, `kind ${f.unit.kind}`, ...(f.foundById ? [`who ${f.foundById}`] : [])];
    for (const key of of) groups.set(key, told.map((x, i) => x + (groups.get(key)?.[i] ?? 0))); // prettier-ignore
  }
  return groups;
}

const figures = (r: JudgedRow) => [
  r.graded, r.gradeHits, r.gradeExpected, r.matted, r.mattedExpected, r.mattedVariance, r.tooEarly, r.tooLate, r.read, r.readHits, r.worse, r.worseSquares,
]; // prettier-ignore

async function expectTheSame(): Promise<void> {
  const [long, told] = [await theLongWay(), await judgedForesights(database.db, FROM, TO)];
  expect(told.map((r) => `${r.by} ${r.of}`).sort()).toEqual([...long.keys()].sort());
  for (const r of told) {
    const expected = long.get(`${r.by} ${r.of}`) ?? [];
    figures(r).forEach((x, i) => expect(x, `${r.by} ${r.of}, figure ${i}`).toBeCloseTo(expected[i] ?? NaN, 9));
  }
}

describe('what was expected beside what was met, summed up by day', () => {
  it('is what every look says, whatever is written, changed or taken back, and whether the sums are worked out or not', async () => {
    const { db } = database;
    const random = new RandomStream(37);
    const { kitchen, unit, person } = await haveOneUnit(db);
    const more = await db.unit.createManyAndReturn({
      data: (['prep_table', 'ice_machine'] as const).map((kind, i) => unitRow(kitchen.id, { name: `More ${i}`, kind })),
    });
    const other = await db.user.create({ data: personRow({ role: 'technician' }) });
    const units = [unit, ...more];
    const foresight = (visitId: string, unitId: string, on: Date) => {
      const raw = ranks.map(() => 0.05 + random.next());
      const chances = raw.map((x) => x / raw.reduce((a, b) => a + b, 0));
      const graded = random.next() < 0.8;
      const read = random.next() < 0.5;
      return {
        visitId, unitId, on, evidence: random.next() < 0.1 ? 0 : 3, modelVersion: 'test', chances, likely: [0, 1, 2], likelyChance: random.next(),
        lnK: -random.next(), lnKSd: 0.1, mattedChance: random.next(), mattedFrom: new Date(on.getTime() + (random.next() - 0.5) * 40 * DAY),
        mattedTo: random.next() < 0.2 ? null : new Date(on.getTime() + (random.next() - 0.3) * 60 * DAY),
        found: graded ? (ranks[Math.floor(random.next() * ranks.length)] ?? null) : null,
        foundById: graded && random.next() < 0.9 ? (random.next() < 0.5 ? person.id : other.id) : null,
        readLnK: read ? -random.next() : null, readLnKSd: read ? 0.2 : null,
      }; // prettier-ignore
    };
    const visitOn = (day: number) => {
      const at = new Date(START.getTime() + day * DAY + 15 * 3_600_000);
      return db.visit.create({ data: visitRow(kitchen.id, person.id, at, 60, { status: 'done', closedAt: at }) });
    };
    const on = (day: number) => new Date(START.getTime() + day * DAY);
    const visits = [];
    for (let day = 0; day < 80; day += 2) {
      const visit = await visitOn(day);
      visits.push(visit);
      await db.foresight.createMany({ data: units.map((u) => foresight(visit.id, u.id, on(day))) });
    }
    await expectTheSame();
    expect(await keepForesightDays({ db })).toBe(40);
    expect(await db.foresightMark.count()).toBe(0);
    await expectTheSame();
    expect(await keepForesightDays({ db })).toBe(0);

    // What was met follows the entries; a visit goes; a unit turns out to be of another kind.
    const [a, b] = [visits[10]?.id ?? '', visits[20]?.id ?? ''];
    await db.foresight.updateMany({
      where: { visitId: a },
      data: { found: 'packed', foundById: other.id, readLnK: null, readLnKSd: null },
    });
    await db.visit.delete({ where: { id: b } });
    await expectTheSame();
    await db.unit.update({ where: { id: more[0]?.id ?? '' }, data: { kind: 'ice_machine' } });
    await expectTheSame();
    await Promise.all([keepForesightDays({ db }), keepForesightDays({ db })]);
    await expectTheSame();

    // A look that is not committed yet while the sums are worked out is in the next ones.
    const late = await visitOn(31);
    await db.$transaction(async (tx) => {
      await tx.foresight.createMany({ data: units.map((u) => foresight(late.id, u.id, on(31))) });
      await keepForesightDays({ db });
    });
    expect(await db.foresightMark.count()).toBe(1);
    await expectTheSame();
    await keepForesightDays({ db });
    await expectTheSame();

    const file = (await exportLooks({ db, now: new Date('2026-03-25T12:00:00Z') }, { from: FROM, until: '2026-03-19' })).split('\r\n');
    const said = (await judgedForesights(db, FROM, TO)).find((r) => r.by === 'all');
    expect(file.slice(1).filter((line) => ranks.some((g) => line.split(',')[6] === g))).toHaveLength(said?.graded ?? -1);

    const met = (
      await db.foresight.findMany({ where: { evidence: { gt: 0 }, found: { not: null }, on: { gte: new Date(FROM), lt: new Date(TO) } } })
    )
      .map((f) => f.chances[ranks.findIndex((g) => g === f.found)] ?? NaN)
      .toSorted((x, y) => x - y);
    expect((await surprises(db, FROM, TO)).map((s) => s.chance)).toEqual(met.slice(0, 12));
  });

  it('each look is a row of the file, the newest first, its chances by grade, with what nobody found or read left empty', async () => {
    const { db } = database;
    const { customer, kitchen, unit, person } = await haveOneUnit(db, {
      kitchen: { name: '=Elm' },
      unit: { name: 'Ice box' },
      person: { name: 'Ana' },
    });
    const visitOn = (on: string) =>
      db.visit.create({
        data: visitRow(kitchen.id, person.id, new Date(`${on}T15:00:00Z`), 60, { status: 'done', closedAt: new Date(`${on}T16:00:00Z`) }),
      });
    const madeAt = new Date('2025-03-01T10:00:00Z');
    const base = { unitId: unit.id, modelVersion: 't', chances: [0.5, 0.25, 0.125, 0.0625, 0.0625], likely: [0, 1], likelyChance: 0.75, lnK: -0.1, lnKSd: 0.05, mattedChance: 0.125, madeAt }; // prettier-ignore
    const [first, second, third] = [await visitOn('2025-03-03'), await visitOn('2025-03-04'), await visitOn('2025-03-05')];
    await db.foresight.createMany({
      data: [
        { ...base, visitId: first.id, on: new Date('2025-03-03'), evidence: 4, found: 'filmed', foundById: person.id, mattedFrom: new Date('2025-05-01'), mattedTo: new Date('2025-06-01') },
        { ...base, visitId: second.id, on: new Date('2025-03-04'), evidence: 5, readLnK: -0.2, readLnKSd: 0.04 },
        { ...base, visitId: third.id, on: new Date('2025-03-05'), evidence: 6 },
      ],
    }); // prettier-ignore
    const file = (await exportLooks({ db, now: new Date('2025-04-01T12:00:00Z') }, { from: '2025-03-03', until: '2025-03-05' })).split(
      '\r\n',
    );
    expect(file[0]).toBe(
      `\uFEFFday,unit,kind,kitchen,customer,looked,found,${ranks.map((g) => `chance ${g}`).join(',')},likely,chance of the likely,mats from,mats until,ln conductance expected,its sd,ln conductance read,its sd,looks and readings before,written down,visit`,
    );
    const common = `0.5000,0.2500,0.1250,0.0625,0.0625,${ranks[0]} ${ranks[1]},0.7500`;
    expect(file.slice(1)).toEqual([
      `2025-03-04,Ice box,reach_in,'=Elm,${customer.name},,,${common},,,-0.1000,0.0500,-0.2000,0.0400,5,2025-03-01T10:00:00.000Z,${second.id}`,
      `2025-03-03,Ice box,reach_in,'=Elm,${customer.name},Ana,filmed,${common},2025-05-01,2025-06-01,-0.1000,0.0500,,,4,2025-03-01T10:00:00.000Z,${first.id}`,
      '',
    ]);
    const named = (await judgedForesights(db, '2025-03-01', '2025-04-01')).filter((r) => r.by === 'who');
    expect(named).toMatchObject([{ of: person.id, name: 'Ana', graded: 1 }]);
    expect(await surprises(db, '2025-03-01', '2025-04-01')).toMatchObject([
      {
        visitId: first.id,
        unitId: unit.id,
        unit: 'Ice box',
        kitchen: '=Elm',
        customer: customer.name,
        found: 'filmed',
        chance: 0.25,
        mattedFrom: new Date('2025-05-01'),
      },
    ]);
  });
});
