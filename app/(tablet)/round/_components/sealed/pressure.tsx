import { judgedPressure, PRESSURE_VERDICT } from '@/lib/core/sealed/judged';
import { timeAt } from '@/lib/core/calendar/at-offset';
import type { Me, VisitOnFile } from '@/lib/core/tablet';
import { fromSi, siOf, typedWork, type DraftUnits, type Given } from '../../_lib/sealed-draft';
import type { StepInHand } from '../../_lib/use-sealed';
import { ownPressure } from '../../_lib/own-words';
import { CautionNote } from '../caution-note';
import { Chip, TouchButton } from '../touch';
import { Num, Pair, Tick, Usual, Verdict } from './fields';

/** Of gauges as they are sold, from memory. */
const DIVISIONS: Readonly<Record<string, readonly string[]>> = { psig: ['1', '5', '10'], bar: ['0.1', '0.2', '0.5'] };

type Props = { in: StepInHand; me: Me; visit: VisitOnFile; units: DraftUnits; given: Given };

export function Pressure({ in: s, me, visit, units, given }: Props) {
  const { draft, setDraft, now } = s;
  const plate = draft.noPlate === 'yes' ? null : siOf(draft.plate, units.pressure);
  const startP = siOf(draft.startP, units.pressure);
  const above = plate !== null && startP !== null && startP > plate;
  const ready = startP !== null && siOf(draft.startT, units.temperature) !== null && (plate !== null || draft.noPlate === 'yes');
  const clock = (key: string) => timeAt(Date.parse(draft[key] ?? ''), visit.kitchen.utcOffsetMinutes);
  return (
    <>
      {draft.noPlate === 'yes' ? null : (
        <Num
          in={s}
          name="plate"
          label="Test pressure on the plate"
          unit={units.pressure.label}
          hint="The low side’s, where both are joined."
        />
      )}
      <Tick in={s} name="noPlate" label="No test pressure can be read" />
      <Num in={s} name="division" label="One division of the gauge" unit={units.pressure.label} />
      <Usual in={s} name="division" values={DIVISIONS[units.pressure.unit] ?? []} unit={units.pressure.label} />
      <Pair>
        <Num in={s} name="startP" label="Gauge then" unit={units.pressure.label} />
        <Num in={s} name="startT" label="Tube then" unit={units.temperature.label} />
      </Pair>
      {above ? (
        <CautionNote title="Above the plate" text="Let nitrogen off before anything else: never above the test pressure on the plate." />
      ) : null}
      {draft.startAt ? (
        <div className="flex flex-wrap items-center gap-3">
          <p>
            <b>Began at {clock('startAt')}.</b> Fifteen minutes at least; an hour finds smaller leaks.
          </p>
          <Chip onClick={() => setDraft({ ...draft, startAt: '', endAt: '' })}>Begin again</Chip>
        </div>
      ) : (
        <TouchButton disabled={!ready || above} onClick={() => setDraft({ ...draft, startAt: now() })}>
          The test begins now
        </TouchButton>
      )}
      {draft.startAt ? (
        <>
          <Pair>
            <Num in={s} name="endP" label="Gauge now" unit={units.pressure.label} />
            <Num in={s} name="endT" label="Tube now" unit={units.temperature.label} />
          </Pair>
          {draft.endAt ? (
            <p>
              <b>Ended at {clock('endAt')}.</b>
            </p>
          ) : (
            <TouchButton
              disabled={siOf(draft.endP, units.pressure) === null || siOf(draft.endT, units.temperature) === null}
              onClick={() => setDraft({ ...draft, endAt: now() })}
            >
              Read just now
            </TouchButton>
          )}
        </>
      ) : null}
      <Judged draft={s.draft} given={given} altitudeM={visit.kitchen.altitudeM} me={me} units={units} />
    </>
  );
}

function Judged({
  draft,
  given,
  altitudeM,
  me,
  units,
}: {
  draft: StepInHand['draft'];
  given: Given;
  altitudeM: number;
  me: Me;
  units: DraftUnits;
}) {
  const typed = typedWork('pressure_test', draft, given);
  if (!('work' in typed) || typed.work.step !== 'pressure_test') return null;
  const judged = judgedPressure(typed.work, altitudeM);
  if (!judged) return null;
  const { j, minutes } = judged;
  const half = (j.band[1] - j.band[0]) / 2;
  return (
    <Verdict title={PRESSURE_VERDICT[j.verdict]} alarm={j.verdict !== 'holds' && j.verdict !== 'too_short'}>
      <p>
        The gas law asks for {ownPressure(j.expectedPaGauge, me)} at this temperature; lost beyond that{' '}
        {fromSi(j.dropPa, units.pressure, 2)} ± {fromSi(half, units.pressure, 2)} {units.pressure.label} (four times in five).{' '}
        {Math.round(minutes)} minutes would have found {fromSi(j.smallestSeenPaPerHour, units.pressure, 2)} {units.pressure.label} an hour
        nine times in ten.
      </p>
    </Verdict>
  );
}
