import { FOOD_LIMIT_K } from '../findings/cautions';
import { has } from '../findings/for-unit';
import { aspectInfo, ASPECTS, gradeWords, isStopped, type Aspect } from '../findings/grades';
import { COIL_CLEANING, isUsualKind, kindInfo, looksAt, type InspectionTask } from '../tasks/kinds';
import { ungradedCoil, unlookedFor } from '../tasks/needed';
import type { FindingEntry, JobOnVisit, StandingTask, UnitOnFile, VisitOnFile, VisitTaskOnFile } from './state';

/** What the entries of one unit amount to: tasks they answer, and what they still leave open. */

const gradedAs = (findings: readonly FindingEntry[], unitId: string, aspect: Aspect, phase: 'found' | 'left') =>
  findings.find((f) => f.unitId === unitId && f.aspect === aspect && f.phase === phase && f.grade !== null);

/** What a coil cleaning still lacks, in words: the coil’s grade as found and as left, the low side. Empty when it can count. */
export function lacksForCleaning(visit: VisitOnFile, unit: UnitOnFile): string[] {
  const { findings } = visit.entries;
  const lacks = ungradedCoil({ kindKey: COIL_CLEANING, unitId: unit.id }, unit, findings);
  const unlooked = unlookedFor({ kindKey: COIL_CLEANING, unitId: unit.id }, unit, findings);
  return [...lacks, ...unlooked.map((a) => aspectInfo(a).within)];
}

/** What a task that is said to be done still lacks before it counts, in words. */
export const lacksForTask = (visit: VisitOnFile, unit: UnitOnFile, task: Pick<VisitTaskOnFile, 'kindKey' | 'unitId'>): string[] =>
  task.kindKey === COIL_CLEANING
    ? lacksForCleaning(visit, unit)
    : unlookedFor(task, unit, visit.entries.findings).map((a) => aspectInfo(a).within);

/** Whether what was graded answers a task by itself: a drain graded is the drain inspection done. */
function isAnswered(visit: VisitOnFile, unit: UnitOnFile, task: Pick<VisitTaskOnFile, 'kindKey'>): boolean {
  if (!isUsualKind(task.kindKey)) return false;
  if (task.kindKey === COIL_CLEANING) return has(unit, 'coil') && lacksForCleaning(visit, unit).length === 0;
  const info = kindInfo(task.kindKey);
  if (info?.learns?.from !== 'failures') return false;
  return gradedAs(visit.entries.findings, unit.id, looksAt(task.kindKey as InspectionTask), 'found') !== undefined;
}

/** Planned tasks of a unit that the entries answer. */
export const answeredTasks = (visit: VisitOnFile, unit: UnitOnFile): VisitTaskOnFile[] =>
  visit.tasks.filter((t) => t.unitId === unit.id && t.outcome === 'planned' && isAnswered(visit, unit, t));

/** Standing tasks of a unit that nobody planned for this visit. */
export const unplannedTasks = (visit: VisitOnFile, unit: UnitOnFile): StandingTask[] =>
  unit.tasks.filter((t) => !visit.tasks.some((on) => on.taskId === t.taskId));

/** Those among them that the entries answer all the same. */
export const answeredUnplanned = (visit: VisitOnFile, unit: UnitOnFile): StandingTask[] =>
  unplannedTasks(visit, unit).filter((t) => isAnswered(visit, unit, t));

/** Something found that does not do its work, and nobody has said yet what becomes of it. */
export type OpenFind = { aspect: Aspect; words: string };

/** "Drain and pan: frozen": how work that is asked for names what was found. */
export const findWords = (aspect: Aspect, grade: string | null): string => `${aspectInfo(aspect).label}: ${gradeWords({ aspect, grade })}`;

/** Bad finds of a unit without an answer: put right (graded as left), or work asked for by its name. */
export function openFinds(visit: VisitOnFile, unit: UnitOnFile): OpenFind[] {
  const { findings, followUps } = visit.entries;
  return ASPECTS.flatMap((aspect) => {
    const found = gradedAs(findings, unit.id, aspect, 'found');
    const left = gradedAs(findings, unit.id, aspect, 'left');
    const standing = left ?? found;
    if (!standing?.grade || !isStopped(aspect, standing.grade)) return [];
    // A coil left matted is past saving, and says so elsewhere; as found it is what the cleaning is for.
    if (aspect === 'coil' && !left) return [];
    const label = aspectInfo(aspect).label;
    if (followUps.some((f) => f.unitId === unit.id && f.what.startsWith(`${label}:`))) return [];
    return [{ aspect, words: findWords(aspect, standing.grade) }];
  });
}

export const NO_FOOD = 'Box too warm for food; none in it.';

/** Whether a box holds food that must stay below the limit: no freezer, no ice machine. */
const foodBox = (unit: Pick<UnitOnFile, 'application' | 'kind'>): boolean => unit.application === 'medium' && unit.kind !== 'ice_machine';

/** Above the limit in a box for food. @param boxK kelvin */
export const tooWarmForFood = (unit: Pick<UnitOnFile, 'application' | 'kind'>, boxK: number): boolean =>
  foodBox(unit) && boxK > FOOD_LIMIT_K;

/** Read above the limit in a box for food, and nobody told. Kelvin; null where there is nothing to tell. */
export function untoldFood(visit: VisitOnFile, unit: UnitOnFile): number | null {
  const warmest = Math.max(...visit.entries.readings.filter((r) => r.unitId === unit.id).map((r) => r.values.boxK ?? 0), 0);
  if (!tooWarmForFood(unit, warmest)) return null;
  const said =
    visit.entries.foodWarnings.some((w) => w.unitId === unit.id) ||
    visit.entries.events.some((e) => e.unitId === unit.id && e.note === NO_FOOD);
  return said ? null : warmest;
}

export type StillToSay = { unitId: string; step: 'look' | 'leave'; words: string };

/** Jobs booked on the visit that nobody has said a word on. */
export const jobsUnsaid = (visit: VisitOnFile): JobOnVisit[] =>
  (visit.jobs ?? []).filter((j) => j.booked && !(visit.entries.jobOutcomes ?? []).some((o) => o.jobId === j.id));

/** What the tablet asks before a visit closes, beyond what the office must have: nothing bad is left without a word. */
export function stillToSay(visit: VisitOnFile): StillToSay[] {
  return visit.units.flatMap((unit) => {
    const outcome = visit.entries.outcomes.find((o) => o.unitId === unit.id)?.outcome;
    if (outcome === 'could_not_reach' || outcome === 'gone') return [];
    const list: StillToSay[] = [];
    const cleaned = visit.tasks.some((t) => t.unitId === unit.id && t.kindKey === COIL_CLEANING && t.outcome === 'done');
    const lacks = cleaned ? lacksForCleaning(visit, unit) : [];
    if (lacks.length > 0) list.push({ unitId: unit.id, step: 'look', words: `${unit.name}: a coil cleaning needs ${lacks.join(', ')}.` });
    for (const f of openFinds(visit, unit))
      list.push({ unitId: unit.id, step: 'look', words: `${unit.name}: ${f.words}. Say what becomes of it.` });
    if (untoldFood(visit, unit) !== null)
      list.push({
        unitId: unit.id,
        step: 'leave',
        words: `${unit.name}: the box read too warm for food. Say who was told, or that there is no food in it.`,
      });
    return list;
  });
}
