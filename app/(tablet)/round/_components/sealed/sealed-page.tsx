import { useState } from 'react';
import { CERTIFICATE_LABEL } from '@/lib/core/refrigerant-book/certificates';
import { safetyClassOf } from '@/lib/core/refrigerants/catalogue';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { judgedWords } from '@/lib/core/sealed/judged';
import { workLines } from '@/lib/core/sealed/said';
import { SEALED_STEP_TEXT, SEALED_STEPS, type SealedStep } from '@/lib/core/sealed/steps';
import { dayAt } from '@/lib/core/calendar/at-offset';
import { measureUnitsOf, type Me, type SealedStepEntry, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { useSnapshot } from '../../_lib/tablet-context';
import { useEstimator } from '../../_lib/use-estimator';
import { go, to } from '../../_lib/use-place';
import { useRecord, type Record_ } from '../../_lib/use-sealed';
import { CautionNote } from '../caution-note';
import { EntryMark } from '../entry-mark';
import { OfficeAnswers } from '../office-answers';
import { Card, Chip, ChipLink } from '../touch';
import { StepForm } from './step-form';

type Props = { visit: VisitOnFile; unit: UnitOnFile; step: SealedStep | null };

/** Unknown counts as burning. */
const burns = (refrigerant: string) => safetyClassOf(refrigerant) !== 'A1';

/** Work on a sealed circuit, one step a screen, each with its caution once. It can be left and taken up at any point. */
export function SealedPage({ visit, unit, step: asked }: Props) {
  const me = useSnapshot((s) => s.me);
  const [anew, setAnew] = useState(false);
  const record = useRecord(visit, unit, anew);
  // The gas's own data, for what the changed parts hold.
  useEstimator(unit.refrigerant);
  if (!me) return null;
  const step = asked ?? record.next ?? 'running_check';
  const place = SEALED_STEPS.indexOf(step);
  const standing = record.steps.get(step);
  const text = SEALED_STEP_TEXT[step];
  return (
    <div className="mx-auto flex w-full max-w-[40rem] flex-col gap-3">
      <header className="flex flex-wrap items-baseline justify-between gap-x-4">
        <h1>{unit.name}</h1>
        <span className="text-soft">
          {refrigerantLabel(unit.refrigerant)}, {unit.tag}
        </span>
      </header>
      <Progress visit={visit} unit={unit} record={record} step={step} />
      <OfficeAnswers visitId={visit.id} />
      <Continued visit={visit} unit={unit} record={record} onAnew={() => setAnew(true)} />
      <h2>
        {place + 1}. {text.title}
      </h2>
      <p>{text.what}</p>
      <CautionNote
        title="Caution"
        text={text.caution({ flammable: burns(unit.refrigerant), carbonDioxide: unit.refrigerant === 'R744' })}
      />
      <Step key={`${record.recordId}:${step}`} {...{ visit, unit, record, me, step, standing }} />
      <p className="text-sm text-soft">The maker’s instructions, local code and licensed practice come first.</p>
    </div>
  );
}

function Step({
  standing,
  ...p
}: {
  visit: VisitOnFile;
  unit: UnitOnFile;
  record: Record_;
  me: Me;
  step: SealedStep;
  standing: SealedStepEntry | undefined;
}) {
  const [again, setAgain] = useState(false);
  const after = SEALED_STEPS[SEALED_STEPS.indexOf(p.step) + 1];
  const onward = () => {
    setAgain(false);
    go(after ? to.sealed(p.visit.id, p.unit.id, after) : to.unit(p.visit.id, p.unit.id, 'leave'));
  };
  if (!standing || again) return <StepForm {...p} flammable={burns(p.unit.refrigerant)} onSaved={onward} />;
  return (
    <>
      <Said entry={standing} me={p.me} altitudeM={p.visit.kitchen.altitudeM} />
      <div className="flex flex-wrap gap-2">
        <Chip onClick={() => setAgain(true)}>Write it anew</Chip>
        <ChipLink href={after ? to.sealed(p.visit.id, p.unit.id, after) : to.unit(p.visit.id, p.unit.id, 'leave')}>
          {after ? `On: ${SEALED_STEP_TEXT[after].title}` : 'Back to the unit'}
        </ChipLink>
      </div>
    </>
  );
}

function Said({ entry, me, altitudeM }: { entry: SealedStepEntry; me: Me; altitudeM: number }) {
  const cylinder = (id: string) => me.cylinders?.find((c) => c.id === id)?.label;
  const judged = entry.work ? judgedWords(entry.work, measureUnitsOf(me), altitudeM) : null;
  const certificate = me.certificates?.find((c) => c.id === entry.certificateId);
  return (
    <Card title={entry.work ? 'Done' : 'Left out'} aside={<EntryMark id={entry.id} />}>
      {entry.work ? (
        <dl className="grid grid-cols-1 gap-x-4 gap-y-1 sm:grid-cols-2">
          {workLines(entry.work, measureUnitsOf(me), cylinder).map(([label, value]) => (
            <div key={label}>
              <dt className="text-sm text-soft">{label}</dt>
              <dd className="font-bold">{value}</dd>
            </div>
          ))}
        </dl>
      ) : (
        <p>{entry.skippedWhy}</p>
      )}
      {judged ? <p className="mt-2 font-bold">{judged}</p> : null}
      {certificate ? (
        <p className="mt-2 text-sm text-soft">
          Under {CERTIFICATE_LABEL[certificate.kind]}, {certificate.number}
        </p>
      ) : null}
      {entry.overruledBy ? (
        <p className="mt-2">
          <b>No certificate: {entry.overruledBy} answers for it.</b> {entry.overruledWhy}
        </p>
      ) : null}
      {entry.note ? <p className="mt-2 whitespace-pre-line">{entry.note}</p> : null}
    </Card>
  );
}

function Progress({ visit, unit, record, step }: { visit: VisitOnFile; unit: UnitOnFile; record: Record_; step: SealedStep }) {
  const reached = record.next === null ? SEALED_STEPS.length : SEALED_STEPS.indexOf(record.next);
  return (
    <nav
      aria-label="Steps on the sealed system"
      className="grid grid-cols-5 gap-px overflow-hidden rounded-lg border border-edge bg-edge sm:grid-cols-9"
    >
      {SEALED_STEPS.map((s, i) => {
        const done = record.steps.get(s);
        const look = 'flex min-h-12 items-center justify-center no-underline';
        const name = `${SEALED_STEP_TEXT[s].title}${done ? (done.work ? ', done' : ', left out') : ''}`;
        const mark = <span aria-hidden="true">{done ? (done.work ? '✓' : '–') : i + 1}</span>;
        return i > reached && !done ? (
          <span key={s} className={`${look} bg-sheet text-soft`}>
            {mark}
            <span className="sr-only">{name}, later</span>
          </span>
        ) : (
          <a
            key={s}
            href={to.sealed(visit.id, unit.id, s)}
            aria-current={s === step ? 'step' : undefined}
            className={`${look} ${s === step ? 'bg-cold font-bold text-on-cold' : 'bg-sheet text-ink'}`}
          >
            {mark}
            <span className="sr-only">{name}</span>
          </a>
        );
      })}
      {/* Nine in rows of five leave one over. */}
      <span aria-hidden="true" className="bg-sheet sm:hidden" />
    </nav>
  );
}

/** What an earlier visit began is gone on with, unless it is another repair. */
function Continued({ visit, unit, record, onAnew }: { visit: VisitOnFile; unit: UnitOnFile; record: Record_; onAnew: () => void }) {
  const before = unit.openSealed;
  const here = (visit.entries.sealed ?? []).some((s) => s.unitId === unit.id);
  const first = before?.steps[0];
  if (!first || here || record.recordId !== before.recordId) return null;
  return (
    <div className="flex flex-wrap items-center gap-3 rounded-lg border border-edge bg-sheet p-3">
      <p className="min-w-0 flex-1">
        Begun on {dayAt(Date.parse(first.at), visit.kitchen.utcOffsetMinutes)}, {before.steps.length} of {SEALED_STEPS.length} steps
        written.
      </p>
      <Chip onClick={onAnew}>This is another repair</Chip>
    </div>
  );
}
