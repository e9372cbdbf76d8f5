import { WORK_STEPS, type WorkStep } from '@/lib/core/findings/cautions';
import { aspectsOf } from '@/lib/core/findings/for-unit';
import { COIL_CLEANING } from '@/lib/core/tasks/kinds';
import { openFinds, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';

const reading = (visit: VisitOnFile, unit: UnitOnFile, phase: string) =>
  visit.entries.readings.some((r) => r.unitId === unit.id && r.phase === phase);

const looked = (visit: VisitOnFile, unit: UnitOnFile, aspect: string, phase: string) =>
  visit.entries.findings.some((f) => f.unitId === unit.id && f.aspect === aspect && f.phase === phase);

/** Whether all that a step asks for is there. */
export function isDone(visit: VisitOnFile, unit: UnitOnFile, step: WorkStep): boolean {
  const tasks = visit.tasks.filter((t) => t.unitId === unit.id);
  const cleans = tasks.some((t) => t.kindKey === COIL_CLEANING);
  if (step === 'read') return reading(visit, unit, 'before');
  if (step === 'restore') return reading(visit, unit, 'after');
  if (step === 'leave') return tasks.length > 0 && tasks.every((t) => t.outcome !== 'planned');
  const aspects = aspectsOf(unit).flatMap((s) => s.aspects);
  const found = aspects.every((a) => looked(visit, unit, a, 'found'));
  const left = !cleans || !aspects.includes('coil') || looked(visit, unit, 'coil', 'left');
  return found && left && openFinds(visit, unit).length === 0;
}

/** Where the work goes on: after the last step that anything was written in, unless that one is unfinished. */
export function nextStep(visit: VisitOnFile, unit: UnitOnFile): WorkStep {
  return WORK_STEPS.find((s) => !isDone(visit, unit, s)) ?? 'leave';
}
