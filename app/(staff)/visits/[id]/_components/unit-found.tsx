import Link from 'next/link';
import { JOB_STATE_LABEL } from '@/lib/core/jobs';
import type { UnitReport } from '@/lib/core/tablet/visit-report';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { GradeDrawing } from '@/app/(tablet)/round/_components/drawings/grade-drawing';
import { timeIn } from '@/lib/core/calendar/when';
import { ASPECT_LABEL, ASPECTS, gradeIndex, GRADES } from '@/lib/core/findings/grades';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { TRIP_CAUSE_LABEL } from '@/lib/core/findings/trip-causes';
import { UNIT_EVENT_LABEL } from '@/lib/core/tablet';
import { timeWords, type TimeSpent } from '@/lib/core/visits/time-on-units';
import { FoodWarningWords } from './food-warning-words';
import { Photos } from './photos';
import { ReadingFound } from './reading-found';
import { ReadingPair } from './reading-pair';

type Finding = UnitReport['findings'][number];

/** One unit of the visit: tasks, findings, readings with their estimates, what else was written about it, photos. */
export function UnitFound({
  unit,
  units,
  timeZone,
  technician,
  spent,
}: {
  unit: UnitReport;
  units: MeasureUnits;
  timeZone: string;
  technician: string;
  /** Time there, where something was written down. */
  spent?: TimeSpent;
}) {
  const reached = unit.outcome?.outcome;
  const standing = (phase: string) => unit.readings.filter((r) => r.phase === phase && !r.superseded).at(-1);
  const [before, after] = [standing('before'), standing('after')];
  const others = unit.readings.filter((r) => r !== before && r !== after);
  return (
    <Sheet
      title={<Link href={`/units/${unit.id}`}>{unit.name}</Link>}
      aside={
        reached === 'could_not_reach' || reached === 'gone' ? (
          <State shape="off" tone="alarm">
            {reached === 'gone' ? 'Gone' : 'Could not reach'}: {unit.outcome?.reason}
          </State>
        ) : undefined
      }
    >
      {spent && spent.hi > 0 ? <p className="mb-2 text-soft">There {timeWords(spent)}, told from when things were written down.</p> : null}
      {unit.archived ? <p className="mb-2 text-soft">Taken out of use since.</p> : null}
      <ul className="mb-3 flex flex-wrap gap-x-6 gap-y-1">
        {unit.tasks.map((t) => (
          <li key={t.id}>
            <State
              shape={t.outcome === 'done' ? 'done' : t.outcome === 'not_done' ? 'off' : 'later'}
              tone={t.outcome === 'not_done' ? 'alarm' : 'ink'}
            >
              {t.label}
            </State>
            {t.outcome === 'not_done' ? <span className="text-soft"> {t.reason}</span> : null}
          </li>
        ))}
      </ul>
      <div className="grid grid-cols-[minmax(0,1fr)] gap-6 md:grid-cols-[minmax(0,2fr)_minmax(0,3fr)]">
        <div>
          <h3 className="mb-1">Found</h3>
          {unit.findings.length === 0 ? <p className="text-soft">Nothing graded.</p> : null}
          <ul className="flex flex-col gap-1">
            {ASPECTS.flatMap((a) => unit.findings.filter((f) => f.aspect === a)).map((f) => (
              <li key={f.id} className={f.superseded ? 'text-soft line-through decoration-1' : ''}>
                <FindingWords finding={f} timeZone={timeZone} technician={technician} />
              </li>
            ))}
          </ul>
          {unit.followUps.map((f) => (
            <p key={f.id} className="mt-2">
              <State shape="ask">Job {f.number}</State> <Link href={`/jobs/${f.id}`}>{f.what}</Link>{' '}
              <span className="text-soft">{JOB_STATE_LABEL[f.state].toLowerCase()}</span>
            </p>
          ))}
          {unit.events.map((e) => (
            <p key={e.id} className="mt-2">
              <b>{UNIT_EVENT_LABEL[e.kind]}</b> {e.cause ? <>behind it: {TRIP_CAUSE_LABEL[e.cause].toLowerCase()}. </> : null}
              {e.note}
            </p>
          ))}
          {unit.foodWarnings.map((w) => (
            <p key={w.id} className="mt-2">
              <b>Food temperature</b> <FoodWarningWords warning={w} units={units} timeZone={timeZone} />
            </p>
          ))}
          {unit.parts.map((p) => (
            <p key={p.id} className="mt-2">
              <b>Part used</b> {p.quantity} × {p.what}
            </p>
          ))}
        </div>
        <div className="flex flex-col gap-3">
          {before || after ? <ReadingPair before={before} after={after} units={units} timeZone={timeZone} of={unit.name} /> : null}
          {others.map((r) => (
            <ReadingFound key={r.id} reading={r} units={units} timeZone={timeZone} />
          ))}
        </div>
      </div>
      <Photos photos={unit.photos} timeZone={timeZone} />
    </Sheet>
  );
}

/** Who found it is told only where it was not the technician of the visit. */
function FindingWords({ finding: f, timeZone, technician }: { finding: Finding; timeZone: string; technician: string }) {
  const { aspect } = f;
  const index = f.grade === null ? -1 : gradeIndex(aspect, f.grade);
  const grade = f.grade === null ? null : (GRADES[aspect][index]?.label ?? f.grade);
  return (
    <>
      {index < 0 ? null : (
        <span className="mr-2 inline-block align-middle">
          <GradeDrawing aspect={aspect} grade={index} small />
        </span>
      )}
      {ASPECT_LABEL[aspect]}
      {f.phase === 'left' ? ', as left' : ''}: <b>{grade ?? 'not looked at'}</b>
      {f.why ? ` (${f.why})` : ''}
      {f.note ? ` ${f.note}` : ''}
      <span className="text-sm text-soft">
        {' '}
        {timeIn(f.at, timeZone)}
        {f.by === technician ? '' : `, ${f.by}`}
        {f.superseded ? ', replaced by a later entry' : ''}
      </span>
    </>
  );
}
