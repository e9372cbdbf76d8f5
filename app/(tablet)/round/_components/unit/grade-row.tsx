import { memo, useState } from 'react';
import { ASPECT_LABEL, gradesOf, isStopped, type Aspect, type CoilGrade } from '@/lib/core/findings/grades';
import { findWords, openFinds, URGENCIES, type UnitOnFile, type Urgency, type VisitOnFile } from '@/lib/core/tablet';
import { useGrade } from '../../_lib/use-grade';
import { GradeDrawing } from '../drawings/grade-drawing';
import { useWide } from '../../_lib/use-wide';
import { EntryMark } from '../entry-mark';
import { Chip } from '../touch';
import { NotLooked } from './not-looked';

type Props = {
  visit: VisitOnFile;
  unit: UnitOnFile;
  aspect: Aspect;
  phase?: 'found' | 'left';
  definitions?: Record<CoilGrade, string> | null;
  /** Whether there is room for the drawings beside the definitions; else they stand with the meanings. */
  drawn: boolean;
};

type Standing = VisitOnFile['entries']['findings'][number];
type Row = { id: string; title: string; standing: Standing | undefined; chosen: Defined | undefined };

/** One tap a grade, the definition of the chosen one below it; nothing is chosen until someone has looked. */
export const GradeRow = memo(function GradeRow({ phase = 'found', definitions = null, ...rest }: Props) {
  const { visit, unit, aspect } = rest;
  const [again, setAgain] = useState(false);
  const wide = useWide();
  const standing = visit.entries.findings.find((f) => f.unitId === unit.id && f.aspect === aspect && f.phase === phase);
  const open = phase === 'found' && openFinds(visit, unit).some((f) => f.aspect === aspect);
  const row: Row = {
    id: `aspect-${aspect}-${phase}`,
    title: phase === 'left' ? `${ASPECT_LABEL[aspect]}, as left` : ASPECT_LABEL[aspect],
    standing,
    chosen: gradesOf(aspect).find((g) => g.grade === standing?.grade),
  };
  // On a phone what is answered takes one line.
  if (!wide && standing && !open && !again) return <Answered row={row} entryId={standing.id} onChange={() => setAgain(true)} />;
  return <Asked {...rest} phase={phase} definitions={definitions} row={row} open={open} onGraded={() => setAgain(false)} />;
});

function Answered({ row, entryId, onChange }: { row: Row; entryId: string; onChange: () => void }) {
  return (
    <section id={row.id} className="flex min-h-12 items-center gap-2 rounded-lg border border-edge bg-sheet pl-2.5">
      <h4 className="font-bold">{row.title}</h4>
      <span className="mr-auto">{row.chosen?.label ?? 'Not looked at'}</span>
      <EntryMark id={entryId} brief />
      <Chip className={LINK} aria-label={`Change: ${row.title}`} onClick={onChange}>
        Change
      </Chip>
    </section>
  );
}

type AskedProps = Props & Required<Pick<Props, 'phase' | 'definitions'>> & { row: Row; open: boolean; onGraded: () => void };

function Asked({ visit, unit, aspect, phase, definitions, drawn, row, open, onGraded }: AskedProps) {
  const { grade, busy } = useGrade(visit, unit);
  const [meaning, setMeaning] = useState(false);
  const [asking, setAsking] = useState(false);
  const { id, title, standing, chosen } = row;
  const defined = (g: Defined) => definedAs(definitions, g);
  // Nobody has graded it yet, so it may still be left: with the reason.
  const mayBeLeft = phase === 'found' && !chosen;
  return (
    <section id={id} className="rounded-lg border border-edge bg-sheet px-2 pb-2 sm:px-3 sm:py-2">
      <div className="flex min-h-12 items-center gap-x-2 sm:flex-wrap sm:gap-x-3">
        <h4 className="mr-auto font-bold leading-tight">{title}</h4>
        {standing ? <EntryMark id={standing.id} /> : null}
        {mayBeLeft ? (
          <Chip className={LINK} aria-expanded={asking} onClick={() => setAsking(!asking)}>
            Not looked at
          </Chip>
        ) : null}
        <Chip className={LINK} aria-expanded={meaning} onClick={() => setMeaning(!meaning)}>
          Meaning
        </Chip>
      </div>
      <GradeButtons
        aspect={aspect}
        title={title}
        standing={standing?.grade}
        drawn={drawn}
        busy={busy}
        onGrade={(g) => {
          onGraded();
          void grade([{ aspect, phase, grade: g }]);
        }}
      />
      <Meaning
        all={meaning}
        aspect={aspect}
        grades={gradesOf(aspect)}
        chosen={chosen}
        defined={defined}
        why={standing && !chosen ? standing.notLookedWhy : null}
      />
      {asking && mayBeLeft ? (
        <NotLooked
          draftKey={`${visit.id}:${unit.id}:${aspect}:why`}
          aspect={aspect}
          busy={busy}
          onWhy={(why) => {
            setAsking(false);
            void grade([{ aspect, phase, grade: null, notLookedWhy: why }]);
          }}
        />
      ) : null}
      {open && standing?.grade ? <WhatBecomes visit={visit} unit={unit} aspect={aspect} grade={standing.grade} /> : null}
    </section>
  );
}

/** The condenser's own definitions for a grade, where it has some. */
const definedAs = (definitions: Props['definitions'], { grade, definition }: { grade: string; definition: string }): string =>
  definitions?.[grade as CoilGrade] ?? definition;

type Graded = ReturnType<typeof gradesOf>[number]['grade'];
type ButtonsProps = {
  aspect: Aspect;
  title: string;
  standing: string | null | undefined;
  drawn: boolean;
  busy: boolean;
  onGrade: (grade: Graded) => void;
};

function GradeButtons({ aspect, title, standing, drawn, busy, onGrade }: ButtonsProps) {
  const grades = gradesOf(aspect);
  return (
    <div role="group" aria-label={title} className={`grid gap-1 sm:grid-cols-5 sm:gap-1.5 ${COLUMNS[grades.length] ?? 'grid-cols-5'}`}>
      {grades.map((g, i) => (
        <button
          key={g.grade}
          type="button"
          aria-pressed={standing === g.grade}
          disabled={busy}
          onClick={() => onGrade(g.grade)}
          className={`flex min-h-12 flex-col items-center justify-center rounded-md border px-0.5 py-1 text-sm leading-tight sm:min-h-16 sm:px-1 ${standing === g.grade ? 'border-2 border-cold bg-cold-wash font-bold' : 'border-edge bg-sheet'}`}
        >
          {drawn ? <GradeDrawing aspect={aspect} grade={i} small /> : null}
          {g.label}
        </button>
      ))}
    </div>
  );
}

const LINK = 'shrink-0 whitespace-nowrap border-0 !px-1 text-sm font-normal underline sm:text-base';
/** As wide as there are grades: one row, a thumb each. */
const COLUMNS: Record<number, string> = { 3: 'grid-cols-3', 4: 'grid-cols-4', 5: 'grid-cols-5' };

type Defined = { grade: string; label: string; definition: string };
type MeaningProps = {
  all: boolean;
  aspect: Aspect;
  grades: readonly Defined[];
  chosen: Defined | undefined;
  defined: (g: Defined) => string;
  why: string | null;
};

/** What each grade means when asked, else what the chosen one does, or why nobody looked. */
function Meaning({ all, aspect, grades, chosen, defined, why }: MeaningProps) {
  const wide = useWide();
  if (all)
    return (
      <dl className="mt-2 flex flex-col gap-1 text-[0.95rem]">
        {grades.map((g, i) => (
          <div key={g.grade} className="flex items-center gap-2">
            {wide ? null : <GradeDrawing aspect={aspect} grade={i} small />}
            <div>
              <dt className="inline font-bold">{g.label}:</dt> <dd className="inline">{defined(g)}</dd>
            </div>
          </div>
        ))}
      </dl>
    );
  if (chosen) return <p className="mt-1 text-[0.95rem] text-soft">{defined(chosen)}</p>;
  return why === null ? null : (
    <p className="mt-1">
      <b>Not looked at.</b> <span className="text-soft">{why}</span>
    </p>
  );
}

const ASK: Record<Urgency, string> = {
  now: 'Stays off: office, now',
  soon: 'Left running: within days',
  next: 'At the next visit',
  quote: 'Quote first',
};

/** Two beside one another on a phone. */
const ANSWER = 'leading-tight max-sm:px-2';

/** What was found bad is put right, or work is asked for, on the spot: one tap. */
function WhatBecomes({ visit, unit, aspect, grade: found }: { visit: VisitOnFile; unit: UnitOnFile; aspect: Aspect; grade: string }) {
  const { grade, write, busy } = useGrade(visit, unit);
  const put = gradesOf(aspect).filter((g) => !isStopped(aspect, g.grade));
  return (
    <div
      role="group"
      aria-label={`What becomes of it: ${ASPECT_LABEL[aspect].toLowerCase()}`}
      className="mt-2 border-l-4 border-alarm pl-3"
    >
      <p className="font-bold">What becomes of it?</p>
      <div className="mt-1 grid grid-cols-2 gap-2 sm:flex sm:flex-wrap">
        {put.map((g) => (
          <Chip key={g.grade} className={ANSWER} disabled={busy} onClick={() => void grade([{ aspect, phase: 'left', grade: g.grade }])}>
            Put right, now {g.label.toLowerCase()}
          </Chip>
        ))}
        {URGENCIES.map((u) => (
          <Chip
            key={u}
            className={ANSWER}
            disabled={busy}
            onClick={() => void write('follow_up.add', { unitId: unit.id, what: findWords(aspect, found), urgency: u, note: '' })}
          >
            {ASK[u]}
          </Chip>
        ))}
      </div>
    </div>
  );
}
