import 'server-only';
import { daysBetween, localDate, todayIn, type LocalDate } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import {
  additionsOf,
  annualizingRates,
  CHECK_RULES,
  chronicPercent,
  co2Tonnes,
  inspectionMonths,
  LEAK_RULES,
  leakCheckMonths,
  repairClock,
  rollingRates,
  rulesFor,
  type Addition,
  type LeakMethod,
  type LeakRate,
  type LeakRule,
  type LeakTest,
  type RepairClock,
  type RuledUnit,
} from '../../../core/refrigerant-book';
import { depletesOzone } from '../../../core/refrigerants/catalogue';
import { judgedPressure } from '../../../core/sealed/judged';
import { groupBy } from '../../../core/numerics/group-by';
import { STORED_SEALED_WORK } from '../../../database/stored/sealed';
import type { Tx } from '../../../database/client';
import type { Prisma } from '../../../database/generated/client';
import { gwpOf } from './book';

const WITH = {
  kitchen: { select: { id: true, name: true, timeZone: true, altitudeM: true, customer: { select: { name: true } } } },
  cylinderEntries: { where: { correctsId: null, corrected: null }, select: { at: true, kg: true, way: true } },
  leakTests: { orderBy: [{ on: 'asc' }, { at: 'asc' }] },
} as const satisfies Prisma.UnitInclude;
type Row = Prisma.UnitGetPayload<{ include: typeof WITH }>;

/** Kitchens cool food: every unit here is commercial refrigeration in the rule's words. */
const KIND = 'commercial_refrigeration';

export type UnitLeaks = {
  unit: {
    id: string;
    name: string;
    tag: string;
    refrigerant: string;
    chargeKg: number | null;
    kitchen: { id: string; name: string; customer: { name: string } };
  };
  additions: Addition[];
  annualizing: LeakRate[];
  rolling: LeakRate[];
  tests: (LeakTest & { from: 'book' | 'record' })[];
  /** Rules that reach it today, with the clock of the shop's method. */
  rules: { rule: LeakRule; clock: RepairClock | null; inspectMonths: number | null }[];
  /** Tonnes of CO2 that its charge stands for, and months between checks by the EU rule; null where none. */
  co2: number | null;
  checkMonths: number | null;
  /** Last day a test of its circuit is on file; null where none is. */
  lastTestOn: LocalDate | null;
};

function leaksOf(u: Row, tests: UnitLeaks['tests'], method: LeakMethod, today: LocalDate): UnitLeaks {
  const weighings = u.cylinderEntries.flatMap((e) =>
    e.way === 'charged' || e.way === 'recovered' ? [{ on: todayIn(u.kitchen.timeZone, e.at.getTime()), kg: e.kg, way: e.way }] : [],
  );
  const additions = additionsOf(weighings, daysBetween);
  const { chargeKg } = u;
  const passed = tests.filter((t) => t.kind === 'follow_up' && t.passed).map((t) => t.on);
  const annualizing = chargeKg === null ? [] : annualizingRates(chargeKg, additions);
  const rolling = chargeKg === null ? [] : rollingRates(chargeKg, additions, passed);
  const rates = method === 'rolling' ? rolling : annualizing;
  const gwp = gwpOf(u.refrigerant);
  const reached = chargeKg === null ? [] : rulesFor(ruled(u.refrigerant, chargeKg), today);
  const co2 = chargeKg === null || gwp === null ? null : co2Tonnes(chargeKg, gwp);
  return {
    unit: { id: u.id, name: u.name, tag: u.tag, refrigerant: u.refrigerant, chargeKg, kitchen: u.kitchen },
    additions,
    annualizing,
    rolling,
    tests,
    rules: reached.map((rule) => ({
      rule,
      clock: repairClock(rule, KIND, rates, tests, today),
      inspectMonths: chargeKg === null ? null : inspectionMonths(rule, chargeKg),
    })),
    co2,
    checkMonths:
      chargeKg === null
        ? null
        : leakCheckMonths({ refrigerant: u.refrigerant, chargeKg, gwp, hermetic: u.circuitAccess === 'sealed', detector: false }, today),
    lastTestOn: tests.at(-1)?.on ?? null,
  };
}

const ruled = (refrigerant: string, chargeKg: number): RuledUnit => ({
  chargeKg,
  ozoneDepleting: depletesOzone(refrigerant),
  gwp: gwpOf(refrigerant),
  kind: KIND,
});

export type ChronicLeaker = { leaks: UnitLeaks; rule: LeakRule; percent: number; addedKg: number; days: LocalDate[] };

/** Units that took so much of their charge in a calendar year that a report is due, by the rules as they stood at its end (or today). */
export function chronicIn(all: readonly UnitLeaks[], year: number, today: LocalDate): ChronicLeaker[] {
  const end = localDate(`${year}-12-31`);
  const day = today < end ? today : end;
  return all.flatMap((leaks) => {
    const { chargeKg, refrigerant } = leaks.unit;
    if (chargeKg === null) return [];
    const taken = leaks.additions.filter((a) => a.on.startsWith(`${year}-`));
    return rulesFor(ruled(refrigerant, chargeKg), day).flatMap((rule) => {
      const percent = chronicPercent(rule, chargeKg, taken, year);
      return percent === null
        ? []
        : [{ leaks, rule, percent, addedKg: taken.reduce((sum, a) => sum + a.kg, 0), days: taken.map((a) => a.on) }];
    });
  });
}

/** Tests of the book, and those of repair records: a pressure test that held, or leaked, is the initial one. */
async function testsOf(db: Tx, units: readonly Row[]): Promise<Map<string, UnitLeaks['tests']>> {
  const steps = await db.sealedStep.findMany({
    where: { unitId: { in: units.map((u) => u.id) }, step: 'pressure_test', skippedWhy: '', supersededAt: null },
    select: { unitId: true, work: true, at: true },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  });
  const stepsOf = groupBy(steps, (s) => s.unitId);
  return new Map(
    units.map((u) => {
      const own = u.leakTests.map((t) => ({ on: toLocalDate(t.on), kind: t.kind, passed: t.passed, from: 'book' as const }));
      const records = (stepsOf.get(u.id) ?? []).flatMap((s) => {
        const passed = held(s.work, u.kitchen.altitudeM);
        return passed === null
          ? []
          : [{ on: todayIn(u.kitchen.timeZone, s.at.getTime()), kind: 'initial' as const, passed, from: 'record' as const }];
      });
      return [u.id, [...own, ...records].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))];
    }),
  );
}

/** Whether a pressure test on file held; null where it was too short to say. */
function held(stored: Prisma.JsonValue, altitudeM: number): boolean | null {
  const work = STORED_SEALED_WORK.readOrNull(stored);
  if (work?.step !== 'pressure_test') return null;
  const verdict = judgedPressure(work, altitudeM)?.j.verdict;
  return verdict === 'holds' ? true : verdict === 'leaks' ? false : null;
}

async function leaksWhere(db: Tx, where: Prisma.UnitWhereInput, today: LocalDate): Promise<UnitLeaks[]> {
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { leakMethod: true } });
  const units = await db.unit.findMany({ where, include: WITH, orderBy: [{ name: 'asc' }, { id: 'asc' }] });
  const tests = await testsOf(db, units);
  return units.map((u) => leaksOf(u, tests.get(u.id) ?? [], shop?.leakMethod ?? 'annualizing', today));
}

/** Units that took refrigerant: what they lose, by both methods, and where their repair stands. The fastest first. */
export async function leakingUnits(db: Tx, today: LocalDate): Promise<UnitLeaks[]> {
  const all = await leaksWhere(db, { cylinderEntries: { some: {} } }, today);
  const last = (l: UnitLeaks) => l.annualizing.at(-1)?.percent ?? 0;
  return all.filter((l) => l.additions.length > 0).sort((a, b) => last(b) - last(a));
}

/** Units whose charge asks for regular leak checks by CO2 equivalent, the heaviest first. */
export async function unitsToCheck(db: Tx, today: LocalDate): Promise<UnitLeaks[]> {
  const all = await leaksWhere(db, { archivedAt: null, chargeKg: { gt: 1 } }, today);
  return all.filter((l) => l.checkMonths !== null).sort((a, b) => (b.co2 ?? 0) - (a.co2 ?? 0));
}

export async function leaksOfUnit(db: Tx, unitId: string, today: LocalDate): Promise<UnitLeaks | null> {
  return (await leaksWhere(db, { id: unitId }, today))[0] ?? null;
}

/** The rules as data, newest first, whether they reach anything here or not. */
export const RULES_ON_FILE = [...LEAK_RULES].sort((a, b) => (a.from < b.from ? 1 : -1));
export const CHECK_RULES_ON_FILE = [...CHECK_RULES].sort((a, b) => (a.from < b.from ? 1 : -1));
