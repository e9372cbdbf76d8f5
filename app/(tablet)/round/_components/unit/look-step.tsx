import { useState } from 'react';
import { aspectsOf, coilWords, SIDE_LABEL, SOUND_TOGETHER } from '@/lib/core/findings/for-unit';
import { bestGrade, type Aspect } from '@/lib/core/findings/grades';
import { COIL_CLEANING } from '@/lib/core/tasks/kinds';
import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { useDrawn } from '../../_lib/use-after-paint';
import { useDraft } from '../../_lib/use-draft';
import { useGrade } from '../../_lib/use-grade';
import { useWide } from '../../_lib/use-wide';
import { Chip } from '../touch';
import { GradeRow } from './grade-row';
import { Photos } from './photos';

/** "Fans, air path and gaskets", "Fan, air path and float": what one word is said of. */
function togetherWords(together: readonly Aspect[]): string {
  const fans = together.filter((a) => a.endsWith('_fan')).length;
  const parts = [
    fans > 1 ? 'fans' : fans === 1 ? 'fan' : '',
    together.includes('air_path') ? 'air path' : '',
    together.includes('gasket') ? 'gaskets' : '',
    together.includes('float') ? 'float' : '',
  ].filter(Boolean);
  const text = [parts.slice(0, -1).join(', '), ...parts.slice(-1)].filter(Boolean).join(' and ');
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** High side, low side, box; then the coil as it was left. Grades answer the tasks. */
export function LookStep({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const [oneByOne, setOneByOne] = useState(false);
  // How this coil is looked at: the same for as found and as left, and after going back.
  const { draft: lamp, setDraft: setLamp } = useDraft(`${visit.id}:${unit.id}:lamp`, true);
  const { grade, busy } = useGrade(visit, unit);
  // The first side stands at once, in words; the rest and the drawings when that has been seen.
  const [seen, wide] = [useDrawn(), useWide()];
  const drawn = seen && wide;
  const sides = aspectsOf(unit);
  const graded = (a: Aspect) => visit.entries.findings.some((f) => f.unitId === unit.id && f.aspect === a && f.phase === 'found');
  const gradeFound = (a: Aspect) =>
    visit.entries.findings.find((f) => f.unitId === unit.id && f.aspect === a && f.phase === 'found')?.grade;
  const together = sides.flatMap((s) => s.aspects).filter((a) => SOUND_TOGETHER.includes(a));
  const sound = together.every((a) => gradeFound(a) === bestGrade(a));
  // One line while nobody has looked, and again once all are sound.
  const fold = !oneByOne && (sound || together.every((a) => !graded(a)));
  const cleans = visit.tasks.some((t) => t.unitId === unit.id && t.kindKey === COIL_CLEANING);
  const definitions = coilWords(unit.condenserKind, lamp);
  return (
    <>
      {(seen ? sides : sides.slice(0, 1)).map(({ side, aspects }) => {
        const shown = fold ? aspects.filter((a) => !together.includes(a)) : aspects;
        return shown.length === 0 ? null : (
          <section key={side} aria-label={SIDE_LABEL[side]} className="flex flex-col gap-1.5 sm:gap-2">
            <div className="-mb-1 flex items-center justify-between gap-3 sm:mb-0">
              <h3>{SIDE_LABEL[side]}</h3>
              {side === 'high' && unit.condenserKind === 'fin_and_tube' ? (
                <Chip on={!lamp} onClick={() => setLamp(!lamp)}>
                  No lamp goes behind
                </Chip>
              ) : null}
            </div>
            {shown.map((a) => (
              <GradeRow key={a} visit={visit} unit={unit} aspect={a} definitions={a === 'coil' ? definitions : null} drawn={drawn} />
            ))}
          </section>
        );
      })}
      {seen && fold && together.length > 0 ? (
        <div
          role="group"
          aria-label="Fans and gaskets"
          className="flex items-center gap-2 rounded-lg border border-edge bg-sheet py-1 pl-2.5 pr-1 sm:flex-wrap sm:px-4 sm:py-2"
        >
          <b className="mr-auto leading-tight">{togetherWords(together)}</b>
          <Chip
            className="shrink-0 whitespace-nowrap max-sm:px-2.5"
            on={sound}
            disabled={busy || sound}
            onClick={() => void grade(together.map((aspect) => ({ aspect, phase: 'found', grade: bestGrade(aspect) })))}
          >
            {sound ? 'All sound ✓' : 'All sound'}
          </Chip>
          <Chip className="shrink-0 whitespace-nowrap max-sm:px-2.5" onClick={() => setOneByOne(true)}>
            One by one
          </Chip>
        </div>
      ) : null}
      {/* A coil that nobody planned to clean can be cleaned and written down all the same. */}
      {seen && (cleans || graded('coil')) && sides.some((s) => s.aspects.includes('coil')) ? (
        <GradeRow visit={visit} unit={unit} aspect="coil" phase="left" definitions={definitions} drawn={drawn} />
      ) : null}
      {seen ? <Photos visit={visit} unit={unit} /> : null}
    </>
  );
}
