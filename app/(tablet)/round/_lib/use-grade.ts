import { useCallback } from 'react';
import type { Aspect, Grade } from '@/lib/core/findings/grades';
import { answeredTasks, answeredUnplanned, type FindingEntry, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import type { Said } from '@/lib/tablet/journal';
import { useWrite } from './use-write';

export type Graded = { aspect: Aspect; phase: 'found' | 'left'; grade: Grade | null; notLookedWhy?: string };

/** Writes grades down, and with them the tasks that they answer: a drain graded is its inspection done. */
export function useGrade(visit: VisitOnFile, unit: UnitOnFile) {
  const { write, writeAll, busy } = useWrite(visit.id);
  const grade = useCallback(
    async (list: readonly Graded[]): Promise<boolean> => {
      let findings = visit.entries.findings;
      const said: Said[] = [];
      for (const { aspect, phase, grade, notLookedWhy = '' } of list) {
        const same = (f: FindingEntry) => f.unitId === unit.id && f.aspect === aspect && f.phase === phase;
        const replaces = findings.find(same)?.id ?? null;
        said.push({ kind: 'finding.set', payload: { unitId: unit.id, aspect, phase, grade, notLookedWhy, note: '', replaces } });
        findings = [...findings.filter((f) => !same(f)), { id: '', unitId: unit.id, aspect, phase, grade, notLookedWhy, note: '', at: '' }];
      }
      const after = { ...visit, entries: { ...visit.entries, findings } };
      for (const { taskId } of answeredTasks(after, unit)) said.push({ kind: 'task.done', payload: { taskId } });
      if (visit.status === 'booked' || visit.status === 'started')
        for (const { taskId } of answeredUnplanned(after, unit))
          said.push({ kind: 'task.take', payload: { taskId, unitId: unit.id } }, { kind: 'task.done', payload: { taskId } });
      return writeAll(said);
    },
    [visit, unit, writeAll],
  );
  return { grade, busy, write };
}
