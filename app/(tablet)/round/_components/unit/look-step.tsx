import { useState } from 'react';
import { aspectsOf, coilWords, SIDE_LABEL, SOUND_TOGETHER } from '@/lib/core/findings/for-unit';
import type { Aspect } from '@/lib/core/findings/grades';
import { COIL_CLEANING } from '@/lib/core/tasks/kinds';
import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { useGrade } from '../../_lib/use-grade';
import { Chip } from '../touch';
import { GradeRow } from './grade-row';
import { Photos } from './photos';

/** "Fans and gaskets", "Condenser fan and float": what one word is said of. */
function togetherWords(together: readonly Aspect[]): string {
  const fans = together.filter((a) => a.endsWith('_fan')).length;
  const parts = [
    fans > 1 ? 'fans' : fans === 1 ? 'fan' : '',
    together.includes('gasket') ? 'gaskets' : '',
    together.includes('float') ? 'float' : '',
  ];
  const words = parts.filter(Boolean).join(' and ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** High side, low side, box; then the coil as it was left. Grades answer the tasks. */
export function LookStep({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const [oneByOne, setOneByOne] = useState(false);
  const [lamp, setLamp] = useState(true);
  const { grade, busy } = useGrade(visit, unit);
  const sides = aspectsOf(unit);
  const graded = (a: Aspect) => visit.entries.findings.some((f) => f.unitId === unit.id && f.aspect === a && f.phase === 'found');
  const together = sides.flatMap((s) => s.aspects).filter((a) => SOUND_TOGETHER.includes(a));
  const fold = !oneByOne && together.every((a) => !graded(a));
  const cleans = visit.tasks.some((t) => t.unitId === unit.id && t.kindKey === COIL_CLEANING);
  const words = coilWords(unit.condenserKind, lamp);
  return (
    <>
      {sides.map(({ side, aspects }) => {
        const shown = fold ? aspects.filter((a) => !together.includes(a)) : aspects;
        return shown.length === 0 ? null : (
          <section key={side} aria-label={SIDE_LABEL[side]} className="flex flex-col gap-2">
            <div className="flex items-center justify-between gap-3">
              <h3>{SIDE_LABEL[side]}</h3>
              {side === 'high' && unit.condenserKind === 'fin_and_tube' ? (
                <Chip on={!lamp} onClick={() => setLamp(!lamp)}>
                  No lamp goes behind
                </Chip>
              ) : null}
            </div>
            {shown.map((a) => (
              <GradeRow key={a} visit={visit} unit={unit} aspect={a} words={a === 'coil' ? words : null} />
            ))}
          </section>
        );
      })}
      {fold && together.length > 0 ? (
        <div
          role="group"
          aria-label="Fans and gaskets"
          className="flex flex-wrap items-center gap-2 rounded-lg border border-edge bg-sheet px-4 py-2"
        >
          <b className="mr-auto">{togetherWords(together)}</b>
          <Chip disabled={busy} onClick={() => void grade(together.map((aspect) => ({ aspect, phase: 'found', grade: 'sound' })))}>
            All sound
          </Chip>
          <Chip onClick={() => setOneByOne(true)}>One by one</Chip>
        </div>
      ) : null}
      {/* A coil that nobody planned to clean can be cleaned and written down all the same. */}
      {(cleans || graded('coil')) && sides.some((s) => s.aspects.includes('coil')) ? (
        <GradeRow visit={visit} unit={unit} aspect="coil" phase="left" words={words} />
      ) : null}
      <Photos visit={visit} unit={unit} />
    </>
  );
}
