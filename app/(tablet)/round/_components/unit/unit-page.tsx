import { EXPANSION_LABEL, PLACEMENT_LABEL, UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { cautionsFor } from '@/lib/core/findings/cautions';
import { ASPECTS } from '@/lib/core/findings/grades';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { safetyClassOf } from '@/lib/core/refrigerants/catalogue';
import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { COIL_CLEANING } from '@/lib/core/tasks';
import { useSteps } from '../../_lib/use-after-paint';
import { to } from '../../_lib/use-place';
import { CautionNote } from '../caution-note';
import { FoodWarnings } from '../visit/food-warnings';
import { OfficeAnswers } from '../office-answers';
import { BeforeAfter } from './before-after';
import { Checklist } from './checklist';
import { Events } from './events';
import { Finding } from './finding';
import { FollowUps } from './follow-ups';
import { Past } from './past';
import { PastSaving } from './past-saving';
import { Photos } from './photos';
import { Plate } from './plate';
import { Reached } from './reached';
import { Readings } from './readings';
import { Tasks } from './tasks';

/** Cautions among them, they fill a tablet's screen. */
const FIRST_PARTS = 1;

/** The unit in hand, in the order of the work: what can hurt, what is found, readings, cleaning, readings again. */
export function UnitPage({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const safetyClass = safetyClassOf(unit.refrigerant);
  const cautions = cautionsFor({ safetyClass, flammable: safetyClass !== 'A1', roofWork: unit.roofWork });
  const at = (step: string, key = step) =>
    cautions.filter((c) => c.step === step).map((c) => <CautionNote key={`${key} ${c.title}`} title={c.title} words={c.words} />);
  const outcome = visit.entries.outcomes.find((o) => o.unitId === unit.id)?.outcome;
  const reached = outcome !== 'could_not_reach' && outcome !== 'gone';
  const cleaned = visit.tasks.some((t) => t.unitId === unit.id && t.kindKey === COIL_CLEANING);
  // In the order of the work; the top of a long page is wanted at once.
  const parts = [
    <Past key="past" unit={unit} timeZone={visit.kitchen.timeZone} />,
    <PastSaving key="past saving" unit={unit} />,
    <Plate key="plate" unit={unit} />,
    ...at('ladder'),
    ...at('before_opening'),
    <Reached key="reached" visit={visit} unit={unit} />,
    ...(reached
      ? [
          <Checklist key="checklist" kind={unit.kind} />,
          // At the step, so at both readings.
          ...at('readings'),
          <Readings key="before" visit={visit} unit={unit} phase="before" />,
          ...ASPECTS.map((a) => <Finding key={a} visit={visit} unit={unit} aspect={a} />),
          ...(cleaned ? [...at('coil'), ...at('chemicals')] : []),
          <Tasks key="tasks" visit={visit} unit={unit} />,
          ...at('readings', 'readings after'),
          <Readings key="after" visit={visit} unit={unit} phase="after" />,
          <BeforeAfter key="before and after" visit={visit} unit={unit} />,
          ...(cleaned ? [<Finding key="coil left" visit={visit} unit={unit} aspect="coil" phase="left" />] : []),
        ]
      : [<Tasks key="tasks" visit={visit} unit={unit} />]),
    <Photos key="photos" visit={visit} unit={unit} />,
    <FollowUps key="follow-ups" visit={visit} unit={unit} />,
    <Events key="events" visit={visit} unit={unit} />,
    <FoodWarnings key="food" visit={visit} unitId={unit.id} />,
  ];
  const shown = useSteps(FIRST_PARTS, parts.length);
  return (
    <div className="flex flex-col gap-4">
      <header>
        <h1>{unit.name}</h1>
        <p className="text-soft">
          {UNIT_KIND_LABEL[unit.kind]}, {PLACEMENT_LABEL[unit.placement].toLowerCase()} · {refrigerantLabel(unit.refrigerant)}
          {safetyClass && safetyClass !== 'A1' ? ` (${safetyClass})` : ''} · {EXPANSION_LABEL[unit.expansion].toLowerCase()},{' '}
          {unit.circuitAccess === 'sealed' ? 'sealed' : 'service ports'}
          {unit.tag ? <span className="whitespace-nowrap"> · {unit.tag}</span> : null}
        </p>
        {unit.make || unit.model || unit.serial ? (
          <p className="text-soft">{[unit.make, unit.model, unit.serial].filter(Boolean).join(' · ')}</p>
        ) : null}
        {unit.notes ? <p className="mt-1 whitespace-pre-line">{unit.notes}</p> : null}
      </header>
      <OfficeAnswers visitId={visit.id} />
      {parts.slice(0, shown)}
      <Neighbours visit={visit} unit={unit} />
    </div>
  );
}

/** The next unit of the visit under the thumb. */
function Neighbours({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const onVisit = new Set(visit.tasks.map((t) => t.unitId));
  const units = visit.units.filter((u) => onVisit.has(u.id) || u.id === unit.id);
  const place = units.findIndex((u) => u.id === unit.id);
  const [before, after] = [units[place - 1], units[place + 1]];
  const look = 'flex min-h-[3.75rem] min-w-0 flex-1 items-center px-4 font-bold no-underline';
  return (
    <nav
      aria-label="Units of this visit"
      className="fixed inset-x-0 bottom-0 z-10 flex border-t border-line bg-sheet pb-[env(safe-area-inset-bottom)]"
    >
      {before ? (
        <a href={to.unit(visit.id, before.id)} className={`${look} border-r border-line text-ink`}>
          <span className="truncate">‹ {before.name}</span>
        </a>
      ) : null}
      <a href={after ? to.unit(visit.id, after.id) : to.visit(visit.id)} className={`${look} justify-end bg-cold text-on-cold`}>
        <span className="truncate">{after ? `${after.name} ›` : 'Back to the visit'}</span>
      </a>
    </nav>
  );
}
