import { describe, expect, it } from 'vitest';
import { GRADES, stoppedGrades } from '@/lib/core/findings/grades';
import type { Grade } from '@/lib/database/generated/enums';
import { RandomStream } from '@/lib/core/numerics/random';
import { refitFleet } from '@/lib/features/intervals/verbs/refit-fleet';
import { coilsPastSaving, deadFans, recurrentDrains } from '@/lib/features/owner/reads/decisions';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, unitRow, visitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const DAY = 86_400_000;

const gradesOf = (aspect: 'coil' | 'condenser_fan' | 'drain') => GRADES[aspect].map((g): Grade => g.grade);

/** Rows that the database keeps, and the same worked out anew from what is on file. */
const kept = async () => {
  const { db } = database;
  return {
    matters: await db.$queryRaw`SELECT "unitId", kind::text, at, dates, grade::text FROM "UnitMatter" ORDER BY 1, 2`,
    kitchens: await db.$queryRaw`SELECT * FROM "KitchenFouling" ORDER BY 1`,
  };
};
const anew = async () => {
  const { db } = database;
  return {
    matters:
      await db.$queryRaw`SELECT "unitId", kind::text, at, dates, grade::text FROM unit_matters((SELECT array_agg(id) FROM "Unit")) ORDER BY 1, 2`,
    kitchens: await db.$queryRaw`SELECT * FROM kitchen_fouling((SELECT array_agg(id) FROM "Kitchen")) ORDER BY 1`,
  };
};

describe('what the database keeps for the owner', () => {
  it('stops at the grades at which the program says that a part does not do its work', async () => {
    for (const aspect of ['coil', 'condenser_fan', 'drain'] as const) {
      const grades = gradesOf(aspect);
      const rows = await database.db.$queryRaw<{ grade: string }[]>`
        SELECT g AS grade FROM unnest(${grades}::text[]) g WHERE stops_work(${aspect}::"Aspect", g::"Grade")`;
      expect(rows.map((r) => r.grade).toSorted()).toEqual(stoppedGrades(aspect).toSorted());
    }
  });

  it('is what is on file, after any order of looks, corrections, replacements and units taken out of use', async () => {
    const { db } = database;
    const random = new RandomStream(20261127);
    const { kitchen, unit, person } = await haveOneUnit(db);
    const more = await db.unit.createManyAndReturn({ data: ['B', 'C', 'D'].map((name) => unitRow(kitchen.id, { name })) });
    const units = [unit, ...more];
    const one = <T>(list: readonly T[]): T => list[Math.floor(random.next() * list.length)] ?? expect.fail('an empty list');
    for (let i = 0; i < 60; i++) {
      // In no order, a day apart at least: nobody is in two places.
      const at = new Date(now.getTime() - (((i * 7) % 60) * 8 + 1) * DAY);
      const visit = await db.visit.create({ data: visitRow(kitchen.id, person.id, at, 60, { status: 'done', closedAt: at }) });
      const looked = one(units);
      const aspect = one(['coil', 'condenser_fan', 'drain'] as const);
      const grades = gradesOf(aspect);
      const grade = random.next() < 0.6 ? one(grades.filter((g) => stoppedGrades(aspect).includes(g))) : one(grades);
      const phase = one(['found', 'left'] as const);
      const finding = await db.finding.create({ data: findingRow(visit.id, looked.id, aspect, grade, at, { phase }) });
      const what = random.next();
      if (what < 0.1) await db.finding.delete({ where: { id: finding.id } });
      else if (what < 0.2) await db.finding.update({ where: { id: finding.id }, data: { supersededAt: now } });
      else if (what < 0.3) await db.unitEvent.create({ data: { unitId: looked.id, visitId: visit.id, kind: 'fan_replaced', at } });
      if (i % 10 === 9) {
        const { matters } = await anew();
        expect((await kept()).matters).toEqual(matters);
      }
    }
    await refitFleet({ db, now });
    expect(await kept()).toEqual(await anew());
    expect((await kept()).kitchens).toMatchObject([{ units: 4, unseen: 0 }]);

    // By the long way: what the pages told before the database kept it.
    const looks = await db.finding.findMany({ where: { supersededAt: null }, orderBy: [{ at: 'desc' }, { id: 'asc' }] });
    const of = (id: string, aspect: string, phase?: string) =>
      looks.filter((f) => f.unitId === id && f.aspect === aspect && (!phase || f.phase === phase));
    const stops = (f: { aspect: string; grade: string | null } | undefined) =>
      f !== undefined && stoppedGrades(f.aspect as 'coil').includes(f.grade ?? '');
    const ids = (rows: { unitId: string }[]) => rows.map((r) => r.unitId).toSorted();
    expect(ids(await coilsPastSaving(db))).toEqual(
      ids(units.filter((u) => of(u.id, 'coil', 'left').slice(0, 2).filter(stops).length === 2).map((u) => ({ unitId: u.id }))),
    );
    const drains = units.map((u) => of(u.id, 'drain', 'found').filter((f) => stops(f) && f.at > new Date(now.getTime() - 365 * DAY)));
    expect((await recurrentDrains(db, now)).map((d) => d.times).toSorted()).toEqual(
      drains
        .map((d) => d.length)
        .filter((n) => n >= 3)
        .toSorted(),
    );
    const replaced = await db.unitEvent.findMany({ where: { kind: 'fan_replaced' } });
    const dead = units.filter((u) => {
      const [last] = of(u.id, 'condenser_fan');
      return (
        stops(last) &&
        !replaced.some(
          (e) => e.unitId === u.id && last !== undefined && (e.at >= last.at || (e.visitId === last.visitId && last.phase === 'found')),
        )
      );
    });
    expect(ids(await deadFans(db))).toEqual(ids(dead.map((u) => ({ unitId: u.id }))));

    await db.unit.update({ where: { id: unit.id }, data: { archivedAt: now } });
    await db.unit.update({ where: { id: more[0]?.id ?? '' }, data: { condenserKind: 'water_cooled' } });
    expect((await kept()).kitchens).toMatchObject([{ units: 2, water: 1 }]);
    expect(await kept()).toEqual(await anew());
  }, 60_000);
});
