import { memo, useState } from 'react';
import { ASPECT_LABEL, GRADES, gradeIndex, type Aspect, type Grade } from '@/lib/core/findings/grades';
import type { FindingEntry, UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { neededBy } from '@/lib/core/tasks';
import { useWrite } from '../../_lib/use-write';
import { GradeDrawing } from '../drawings/grade-drawing';
import { EntryMark } from '../entry-mark';
import { Card, Chip } from '../touch';
import { NotLooked } from './not-looked';

type Phase = 'found' | 'left';

/** Nothing is chosen until someone has looked. */
export function Finding({ visit, unit, aspect, phase = 'found' }: { visit: VisitOnFile; unit: UnitOnFile; aspect: Aspect; phase?: Phase }) {
  const standing = visit.entries.findings.find((f) => f.unitId === unit.id && f.aspect === aspect && f.phase === phase);
  return <AspectCard visitId={visit.id} unitId={unit.id} aspect={aspect} phase={phase} standing={standing} />;
}

/** Drawn again only when what was found changes: there are many drawings in it. */
const AspectCard = memo(function AspectCard({
  visitId,
  unitId,
  aspect,
  phase,
  standing,
}: {
  visitId: string;
  unitId: string;
  aspect: Aspect;
  phase: Phase;
  standing?: FindingEntry;
}) {
  const { write, busy } = useWrite(visitId);
  const [choosing, setChoosing] = useState(false);
  const needed = neededBy(aspect);
  const set = async (grade: Grade | null, notLookedWhy = '') => {
    if (await write('finding.set', { unitId, aspect, phase, grade, notLookedWhy, note: '', replaces: standing?.id ?? null }))
      setChoosing(false);
  };
  return (
    <Card
      id={`aspect-${aspect}-${phase}`}
      title={phase === 'left' ? `${ASPECT_LABEL[aspect]}, as left` : ASPECT_LABEL[aspect]}
      aside={
        standing ? (
          <EntryMark id={standing.id} />
        ) : needed.length > 0 && phase === 'found' ? (
          <span className="text-sm text-soft">Needed before a {needed.join(' or ')} closes</span>
        ) : undefined
      }
    >
      {standing && !choosing ? (
        <div className="flex flex-wrap items-center gap-3">
          <Told finding={standing} />
          <Chip className="ml-auto" onClick={() => setChoosing(true)}>
            Change
          </Chip>
        </div>
      ) : (
        <>
          <div role="group" aria-label={ASPECT_LABEL[aspect]} className="grid grid-cols-1 gap-2 sm:grid-cols-2">
            {GRADES[aspect].map((g, i) => (
              <button
                key={g.grade}
                type="button"
                aria-pressed={standing?.grade === g.grade}
                disabled={busy}
                onClick={() => void set(g.grade)}
                className={`flex min-h-[4rem] items-center gap-3 rounded-md border p-2 text-left ${standing?.grade === g.grade ? 'border-2 border-cold bg-cold-wash' : 'border-edge bg-sheet'}`}
              >
                <GradeDrawing aspect={aspect} grade={i} />
                <span className="leading-snug">
                  <b>{g.label}</b> <span className="block text-[0.95rem] text-soft">{g.definition}</span>
                </span>
              </button>
            ))}
          </div>
          <NotLooked
            aspect={aspect}
            busy={busy}
            onWhy={(why) => void set(null, why)}
            onBack={standing ? () => setChoosing(false) : undefined}
          />
        </>
      )}
    </Card>
  );
});

function Told({ finding }: { finding: FindingEntry }) {
  if (finding.grade === null)
    return (
      <p>
        <b>Not looked at.</b> <span className="text-soft">{finding.notLookedWhy}</span>
      </p>
    );
  const i = gradeIndex(finding.aspect, finding.grade);
  const g = GRADES[finding.aspect][i];
  return (
    <span className="flex min-w-0 items-center gap-3">
      <GradeDrawing aspect={finding.aspect} grade={i} />
      <span className="leading-snug">
        <b>{g?.label}</b> <span className="block text-[0.95rem] text-soft">{g?.definition}</span>
      </span>
    </span>
  );
}
