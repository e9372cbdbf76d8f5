import { useRef } from 'react';
import { PLACEMENT_LABEL, UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { cautionsFor, WORK_STEP_LABEL, WORK_STEP_SHORT, WORK_STEPS, type WorkStep } from '@/lib/core/findings/cautions';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { safetyClassOf } from '@/lib/core/refrigerants/catalogue';
import { pastSaving } from '@/lib/core/tablet/past-saving';
import { kindInfo } from '@/lib/core/tasks/kinds';
import type { Me, UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { ownMass, ownPressure, ownTemperature } from '../../_lib/own-words';
import { useSnapshot } from '../../_lib/tablet-context';
import { useWide } from '../../_lib/use-wide';
import { go, to } from '../../_lib/use-place';
import { CautionNote } from '../caution-note';
import { OfficeAnswers } from '../office-answers';
import { OpenSealed } from '../sealed/open-sealed';
import { LastTime } from './last-time';
import { LeaveStep } from './leave-step';
import { LookStep } from './look-step';
import { OldDeposit } from './old-deposit';
import { PastSaving } from './past-saving';
import { ReadStep } from './read-step';
import { RestoreStep } from './restore-step';
import { isDone, nextStep } from './step-state';

/** Keeps what is typed and not saved before a step is left; false where it can't be. */
export type BeforeLeaving = { current: (() => Promise<boolean>) | null };

/** The unit in hand, one step of the work a screen, the next under the thumb. */
export function UnitPage({ visit, unit, step: asked }: { visit: VisitOnFile; unit: UnitOnFile; step: WorkStep | null }) {
  const me = useSnapshot((s) => s.me);
  const leavingRef = useRef<(() => Promise<boolean>) | null>(null);
  const step = asked ?? nextStep(visit, unit);
  if (!me) return null;
  const outcome = visit.entries.outcomes.find((o) => o.unitId === unit.id)?.outcome;
  const missed = outcome === 'could_not_reach' || outcome === 'gone';
  const shown = missed ? 'leave' : step;
  const cautions = missed ? [] : cautionsOf(visit, unit, me).filter((c) => c.step === shown);
  return (
    <div className="flex flex-col gap-2 sm:gap-3">
      <Head unit={unit} me={me} />
      <LastTime unit={unit} timeZone={visit.kitchen.timeZone} me={me} />
      <OfficeAnswers visitId={visit.id} />
      {missed ? null : <Steps visit={visit} unit={unit} step={shown} />}
      <h2 className="sr-only">{WORK_STEP_LABEL[shown]}</h2>
      {shown === 'look' ? pastSaving(unit) ? <PastSaving unit={unit} /> : <OldDeposit unit={unit} /> : null}
      {cautions.map((c) => (
        <CautionNote key={c.title} title={c.title} text={c.text} more={c.more} />
      ))}
      {shown === 'read' ? <ReadStep visit={visit} unit={unit} leavingRef={leavingRef} /> : null}
      {shown === 'look' ? <LookStep visit={visit} unit={unit} /> : null}
      {shown === 'restore' ? <RestoreStep visit={visit} unit={unit} leavingRef={leavingRef} /> : null}
      {shown === 'leave' ? <LeaveStep visit={visit} unit={unit} missed={missed} /> : null}
      {shown === 'look' ? <OpenSealed visit={visit} unit={unit} /> : null}
      <Onward visit={visit} unit={unit} step={shown} leavingRef={leavingRef} />
    </div>
  );
}

function cautionsOf(visit: VisitOnFile, unit: UnitOnFile, me: Me) {
  return cautionsFor({
    kind: unit.kind,
    condenserKind: unit.condenserKind,
    application: unit.application,
    refrigerant: unit.refrigerant,
    safetyClass: safetyClassOf(unit.refrigerant),
    charge: unit.chargeKg === null ? null : ownMass(unit.chargeKg, me),
    roofWork: unit.roofWork,
    topics: visit.tasks.filter((t) => t.unitId === unit.id).flatMap((t) => kindInfo(t.kindKey)?.cautions ?? []),
  });
}

/** Name, and what one needs to know with a gauge in hand. */
function Head({ unit, me }: { unit: UnitOnFile; me: Me }) {
  const safety = safetyClassOf(unit.refrigerant);
  const facts = [
    `${refrigerantLabel(unit.refrigerant)}${safety && safety !== 'A1' ? ` (${safety})` : ''}`,
    unit.chargeKg === null ? null : ownMass(unit.chargeKg, me),
    unit.cutoutPaGauge === null ? null : `cuts out at ${ownPressure(unit.cutoutPaGauge, me)}`,
    unit.boxSetK === null ? null : `set to ${ownTemperature(unit.boxSetK, me)}`,
  ].filter((x) => x !== null);
  return (
    <header>
      <div className="flex flex-wrap items-baseline justify-between gap-x-4">
        <h1 className="max-sm:text-xl">{unit.name}</h1>
        {unit.tag ? <span className="text-soft">{unit.tag}</span> : null}
      </div>
      <p className="leading-snug text-soft">
        {UNIT_KIND_LABEL[unit.kind]}, {PLACEMENT_LABEL[unit.placement].toLowerCase()} ·{' '}
        <b className="text-ink">
          {facts.map((fact, i) => (
            <span key={fact}>
              {i === 0 ? '' : ' · '}
              <span className="whitespace-nowrap">{fact}</span>
            </span>
          ))}
        </b>
      </p>
      {unit.notes ? <p className="whitespace-pre-line">{unit.notes}</p> : null}
    </header>
  );
}

/** Each step a tap away, in any order. */
function Steps({ visit, unit, step }: { visit: VisitOnFile; unit: UnitOnFile; step: WorkStep }) {
  const wide = useWide();
  return (
    <nav aria-label="Steps of the work" className="grid grid-cols-4 overflow-hidden rounded-lg border border-edge bg-sheet">
      {WORK_STEPS.map((s, i) => {
        const done = isDone(visit, unit, s);
        return (
          <a
            key={s}
            href={to.unit(visit.id, unit.id, s)}
            aria-current={s === step ? 'step' : undefined}
            aria-label={done ? `${WORK_STEP_LABEL[s]}, done` : WORK_STEP_LABEL[s]}
            className={`flex min-h-12 flex-col justify-center whitespace-nowrap border-edge px-1.5 py-1 text-sm leading-tight no-underline sm:min-h-14 sm:whitespace-normal sm:px-2 [&:not(:first-child)]:border-l ${s === step ? 'bg-cold font-bold text-on-cold' : 'text-ink'}`}
          >
            <span aria-hidden="true">{done ? '✓' : i + 1}</span>
            <span>{wide ? WORK_STEP_LABEL[s] : WORK_STEP_SHORT[s]}</span>
          </a>
        );
      })}
    </nav>
  );
}

/** The next step under the thumb; after the last, the next unit. */
function Onward({ visit, unit, step, leavingRef }: { visit: VisitOnFile; unit: UnitOnFile; step: WorkStep; leavingRef: BeforeLeaving }) {
  const onVisit = new Set(visit.tasks.map((t) => t.unitId));
  const units = visit.units.filter((u) => onVisit.has(u.id) || u.id === unit.id);
  const place = units.findIndex((u) => u.id === unit.id);
  const next = WORK_STEPS[WORK_STEPS.indexOf(step) + 1];
  const [before, after] = [units[place - 1], units[place + 1]];
  const [href, label] = next
    ? [to.unit(visit.id, unit.id, next), WORK_STEP_LABEL[next]]
    : after
      ? [to.unit(visit.id, after.id), after.name]
      : [to.visit(visit.id), 'Back to the visit'];
  const on = async () => {
    if (!leavingRef.current || (await leavingRef.current())) go(href);
  };
  const look = 'flex min-h-[3.75rem] min-w-0 flex-1 items-center px-4 font-bold no-underline';
  return (
    <nav aria-label="Onward" className="fixed inset-x-0 bottom-0 z-10 flex border-t border-line bg-sheet pb-[env(safe-area-inset-bottom)]">
      {before ? (
        <a href={to.unit(visit.id, before.id)} className={`${look} max-w-[36%] border-r sm:max-w-[40%] border-line text-ink`}>
          <span className="truncate">‹ {before.name}</span>
        </a>
      ) : null}
      <button type="button" onClick={() => void on()} className={`${look} justify-end bg-cold text-on-cold`}>
        <span className="truncate">{label} ›</span>
      </button>
    </nav>
  );
}
