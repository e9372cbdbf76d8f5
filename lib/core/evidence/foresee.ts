import { addDays, type LocalDate } from '../calendar';
import { GRADES, gradeIndex, type CoilGrade } from '../findings/grades';
import { ahead, crossedWithin, daysToRisk, gradeChances, lnKAhead, type Ahead, type FoulingPosterior, type Hyper } from '../fouling';
import { kitchenBeliefs, type FleetBelief } from './beliefs';
import { baselineFrom, depositOf, setAsideWhy } from './reading-fact';
import type { UnitFile } from './unit-file';

/** What was expected of a coil on the day somebody came, from all that was known before that day, and what he met. */
export type Foresight = {
  unitId: string;
  on: LocalDate;
  /** Looks, readings and cleanings that it rested on. */
  evidence: number;
  modelVersion: string;
  /** Chance of each coil grade, best first. */
  chances: number[];
  /** The fewest grades that together have four chances in five, by their place from the best, and what they have. */
  likely: number[];
  likelyChance: number;
  /** ln(K/K_clean) expected, with its standard deviation. */
  lnK: number;
  lnKSd: number;
  /** When the coil was expected to mat: the 80 % band told after the last evidence, and the chance that it had by now. */
  mattedChance: number;
  mattedFrom: LocalDate | null;
  mattedTo: LocalDate | null;
  found: CoilGrade | null;
  foundBy: string | null;
  /** ln(K/K_clean) as read before the work, by the baseline known before. */
  readLnK: number | null;
  readLnKSd: number | null;
};

/** A file as it was before a day. */
function fileBefore(file: UnitFile, day: LocalDate): UnitFile {
  const before = <T extends { on: LocalDate }>(list: readonly T[]) => list.filter((x) => x.on < day);
  return {
    ...file,
    cleanings: file.cleanings.filter((on) => on < day),
    findings: before(file.findings),
    readings: before(file.readings),
    trips: before(file.trips),
    washed: file.washed.filter((on) => on < day),
    changes: before(file.changes),
  };
}

const MATTED = gradeIndex('coil', 'matted');

function mattedDates(p: FoulingPosterior, hyper: Hyper, then: Ahead) {
  const a = ahead(p);
  const lnK = -(hyper.grades.thresholds[MATTED - 1] ?? Infinity);
  const date = (q: number) => {
    const days = daysToRisk(a, lnK, q);
    return Number.isFinite(days) ? addDays(p.asOf, Math.ceil(days)) : null;
  };
  return { mattedChance: crossedWithin(then, lnK, 0), mattedFrom: date(0.1), mattedTo: date(0.9) };
}

function met(file: UnitFile, before: UnitFile, on: LocalDate) {
  const look = file.findings.findLast((f) => f.on === on && f.aspect === 'coil' && f.phase === 'found');
  const baseline = baselineFrom(before.unit, before.readings);
  const read = file.readings
    .filter((r) => r.on === on && r.phase !== 'after' && setAsideWhy(r) === null)
    .flatMap((r) => depositOf(r, baseline) ?? [])
    .at(-1);
  return {
    found: GRADES.coil.find((g) => g.grade === look?.grade)?.grade ?? null,
    foundBy: look?.by ?? null,
    readLnK: read?.lnK ?? null,
    readLnKSd: read?.sd ?? null,
  };
}

/**
 * What the kitchen's file of before a day expected of the coils that were looked at or read that day. Nothing of the day
 * itself is heard, whenever this is worked out.
 */
export function foresee(files: readonly UnitFile[], on: LocalDate, fleet: FleetBelief): Foresight[] {
  const filesBefore = files.map((f) => fileBefore(f, on));
  const seen = files.map((file, i) => ({ file, what: met(file, filesBefore[i] ?? file, on) }));
  if (seen.every(({ what }) => what.found === null && what.readLnK === null)) return [];
  return kitchenBeliefs(filesBefore, fleet).flatMap(({ fouling }, i) => {
    const one = seen[i];
    if (!one || (one.what.found === null && one.what.readLnK === null)) return [];
    // Nothing can be expected of a day before the record begins.
    if (fouling.asOf > on) return [];
    const then = ahead(fouling, on);
    const { mean, sd } = lnKAhead(then);
    const chances = gradeChances(then, fleet.fouling);
    const likely = likelyGrades(chances);
    const { grades, readings, cleanings } = fouling.evidence;
    return [
      {
        unitId: one.file.unitId, on, evidence: grades + readings + cleanings, modelVersion: fouling.modelVersion,
        chances, likely: likely.grades, likelyChance: likely.chance, lnK: mean, lnKSd: sd, ...mattedDates(fouling, fleet.fouling, then), ...one.what,
      },
    ]; // prettier-ignore
  });
}

/** The fewest grades that together have at least `level`, and what they have: they should hold what is found that often. */
function likelyGrades(chances: readonly number[], level = 0.8): { grades: number[]; chance: number } {
  const order = chances.map((chance, g) => ({ chance, g })).sort((a, b) => b.chance - a.chance);
  const grades: number[] = [];
  let sum = 0;
  for (const { chance, g } of order) {
    if (sum >= level) break;
    grades.push(g);
    sum += chance;
  }
  return { grades, chance: Math.min(1, sum) };
}
