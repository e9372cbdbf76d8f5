import { useState } from 'react';
import { ASPECT_LABEL, ASPECTS, GRADES, gradeIndex, type Aspect } from '@/lib/core/findings/grades';
import { LOW_SIDE_ASPECTS, type FindingEntry, type UnitOnFile, type VisitOnFile } from '@/lib/core/round';
import { useWrite } from '../../_lib/use-write';
import { GradeDrawing } from '../drawings/grade-drawing';
import { EntryMark } from '../entry-mark';
import { Card, Chip } from '../touch';
import { NotLooked } from './not-looked';

/** Nothing is chosen until someone has looked. */
export function Findings({ visit, unit, only, phase = 'found' }: { visit: VisitOnFile; unit: UnitOnFile; only?: readonly Aspect[]; phase?: 'found' | 'left' }) {
  return (
    <div className="flex flex-col gap-4">
      {(only ?? ASPECTS).map((aspect) => (
        <AspectCard key={aspect} visit={visit} unit={unit} aspect={aspect} phase={phase} />
      ))}
    </div>
  );
}

function AspectCard({ visit, unit, aspect, phase }: { visit: VisitOnFile; unit: UnitOnFile; aspect: Aspect; phase: 'found' | 'left' }) {
  const { write, busy } = useWrite(visit.id);
  const standing = visit.entries.findings.find((f) => f.unitId === unit.id && f.aspect === aspect && f.phase === phase);
  const [choosing, setChoosing] = useState(false);
  const lowSide = (LOW_SIDE_ASPECTS as readonly Aspect[]).includes(aspect);
  const set = async (grade: string | null, notLookedWhy = '') => {
    if (await write('finding.set', { unitId: unit.id, aspect, phase, grade, notLookedWhy, note: '', replaces: standing?.id ?? null })) setChoosing(false);
  };
  return (
    <Card id={`aspect-${aspect}-${phase}`} title={phase === 'left' ? `${ASPECT_LABEL[aspect]}, as left` : ASPECT_LABEL[aspect]} aside={standing ? <EntryMark id={standing.id} /> : lowSide && phase === 'found' ? <span className="text-sm text-soft">Needed before a coil cleaning closes</span> : undefined}>
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
          <NotLooked aspect={aspect} busy={busy} onWhy={(why) => void set(null, why)} onBack={standing ? () => setChoosing(false) : undefined} />
        </>
      )}
    </Card>
  );
}

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
