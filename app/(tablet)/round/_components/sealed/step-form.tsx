import { useState } from 'react';
import { CERTIFICATE_LABEL } from '@/lib/core/refrigerant-book/certificates';
import { dateWords } from '@/lib/core/calendar/when';
import type { SealedStep } from '@/lib/core/sealed/steps';
import type { Me, UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { draftUnits, typedWork, type Given } from '../../_lib/sealed-draft';
import { useCertified, useStep, type Record_, type StepInHand } from '../../_lib/use-sealed';
import { CautionNote } from '../caution-note';
import { Chip, TouchButton, TouchField } from '../touch';
import { Charge, chargeGiven } from './charge';
import { TextBox } from './fields';
import { Pressure } from './pressure';
import { readingAfter, Running } from './running';
import { Braze, Drier, Isolate, Open } from './small-steps';
import { Vacuum } from './vacuum';
import { Weighing } from './weighing';

type Props = { visit: VisitOnFile; unit: UnitOnFile; record: Record_; me: Me; step: SealedStep; flammable: boolean; onSaved: () => void };

/** A step being written: its form, who may do it, and the way past it. */
export function StepForm({ visit, unit, record, me, step, flammable, onSaved }: Props) {
  const certified = useCertified(me, unit, visit);
  const s = useStep({ visit, unit, record, step, certified });
  const units = draftUnits(me);
  const read = readingAfter(visit, unit, record.steps.get('charge'));
  const given: Given = {
    units,
    flammable,
    charge: step === 'charge' ? chargeGiven(unit, visit, record, s.draft, units) : { plateKg: null, targetKg: null, band: null },
    reading: read && { id: read.id, minutes: read.values.steadyMinutes ?? 0 },
  };
  const typed = typedWork(step, s.draft, given);
  const save = async () => {
    if ('work' in typed && (await s.save(typed.work))) onSaved();
  };
  return (
    <div className="flex flex-col gap-4">
      {s.needs && !certified.holds ? <NoCertificate in={s} certified={certified} me={me} /> : null}
      <WorkOf step={step} in={s} me={me} unit={unit} visit={visit} record={record} units={units} given={given} flammable={flammable} />
      {step === 'running_check' ? null : <TextBox in={s} name="note" label="Anything worth keeping" max={2000} />}
      <div className="flex flex-col gap-2">
        <TouchButton look="primary" disabled={s.busy || !s.mayDo || !('work' in typed)} onClick={() => void save()}>
          {step === 'running_check' ? 'Its new clean baseline' : 'Done, next step'}
        </TouchButton>
        <p className="text-sm text-soft">
          {!s.mayDo ? 'A refrigerant step: somebody answers for it by name first.' : 'lacks' in typed ? typed.lacks : ''}{' '}
          {s.kept ? '' : 'This tablet can’t keep it unsaved: save it now.'}
        </p>
      </div>
      <LeaveOut in={s} onLeft={onSaved} />
    </div>
  );
}

type WorkProps = Omit<Props, 'onSaved'> & { in: StepInHand; units: ReturnType<typeof draftUnits>; given: Given };

/** What is written down at each step. */
function WorkOf({ step, in: s, me, unit, visit, record, units, given, flammable }: WorkProps) {
  switch (step) {
    case 'isolate':
      return <Isolate in={s} units={units} unit={unit} me={me} flammable={flammable} />;
    case 'recover':
      return <Weighing in={s} me={me} unit={unit} units={units} way="recover" />;
    case 'open':
      return <Open in={s} />;
    case 'braze':
      return <Braze in={s} />;
    case 'drier':
      return <Drier in={s} units={units} />;
    case 'pressure_test':
      return <Pressure in={s} me={me} visit={visit} units={units} given={given} />;
    case 'evacuate':
      return <Vacuum in={s} />;
    case 'charge':
      return <Charge in={s} me={me} unit={unit} visit={visit} record={record} units={units} />;
    case 'running_check':
      return <Running visit={visit} unit={unit} />;
  }
}

const WHY = {
  none: 'No certificate of yours is on file.',
  expired: 'Your certificate has run out.',
  another_unit: 'Your certificate does not reach this unit.',
} as const;

/** No certificate, no step on refrigerant: said, and who overrules it is kept. */
function NoCertificate({ in: s, certified, me }: { in: StepInHand; certified: ReturnType<typeof useCertified>; me: Me }) {
  if (certified.holds) return null;
  const { latest, why } = certified;
  const text = `${WHY[why]}${latest ? ` ${CERTIFICATE_LABEL[latest.kind]}${latest.expiresOn ? `, until ${dateWords(latest.expiresOn)}` : ''}.` : ''} ${me.name} does no step on refrigerant, unless somebody answers for it by name; the office is told.`;
  return (
    <div className="flex flex-col gap-3">
      <CautionNote title="No refrigerant step" text={text} />
      <TouchField
        id="sealed-overruledBy"
        label="Who answers for it"
        maxLength={200}
        value={s.overruledBy}
        onChange={(e) => s.put('overruledBy', e.target.value)}
      />
      <TouchField
        id="sealed-overruledWhy"
        label="Why"
        maxLength={500}
        value={s.overruledWhy}
        onChange={(e) => s.put('overruledWhy', e.target.value)}
      />
    </div>
  );
}

/** A step is left out only with a reason. */
function LeaveOut({ in: s, onLeft }: { in: StepInHand; onLeft: () => void }) {
  const [asking, setAsking] = useState(false);
  const why = (s.draft.skip ?? '').trim();
  const leave = async () => {
    if (await s.save(null, why)) onLeft();
  };
  if (!asking && !why)
    return (
      <Chip className="self-start" onClick={() => setAsking(true)}>
        Leave this step out
      </Chip>
    );
  return (
    <div className="flex flex-col gap-3 rounded-lg border border-edge bg-sheet p-4">
      <TouchField
        id="sealed-skip"
        label="Why it is left out"
        maxLength={500}
        value={s.draft.skip ?? ''}
        onChange={(e) => s.put('skip', e.target.value)}
      />
      <TouchButton disabled={s.busy || why.length < 3} onClick={() => void leave()}>
        Leave it out
      </TouchButton>
    </div>
  );
}
