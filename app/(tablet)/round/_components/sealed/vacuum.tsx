import { useMemo } from 'react';
import { VACUUM_VERDICT, vacuumFigures } from '@/lib/core/sealed/judged';
import { judgeVacuum, USUAL_LIMIT_MICRONS, type VacuumJudgement } from '@/lib/core/sealed/vacuum-decay';
import { readVacuumText } from '@/lib/core/sealed/vacuum-text';
import { typedNumber } from '@/lib/core/measures/typed-number';
import type { StepInHand } from '../../_lib/use-sealed';
import { TouchButton } from '../touch';
import { Num, Usual, Verdict } from './fields';

const MINUTE = 60_000;

/** Microns over time after the pump was shut off: typed one by one by the clock, or pasted from a gauge. */
export function Vacuum({ in: s }: { in: StepInHand }) {
  const { draft, setDraft, now } = s;
  const { readings, odd } = useMemo(() => readVacuumText(draft.readings ?? ''), [draft.readings]);
  const limit = typedNumber(draft.limit ?? '');
  const judged = useMemo(
    () => (readings.length < 2 || !limit || limit <= 0 ? null : judgeVacuum(readings, { limitMicrons: limit })),
    [readings, limit],
  );
  const microns = typedNumber(draft.microns ?? '');
  const add = () => {
    const at = now();
    const since = draft.shutAt ? (Date.parse(at) - Date.parse(draft.shutAt)) / MINUTE : 0;
    setDraft({
      ...draft,
      shutAt: draft.shutAt || at,
      microns: '',
      readings: `${draft.readings ? `${draft.readings.trimEnd()}\n` : ''}${since.toFixed(1)} ${microns}`,
    });
  };
  return (
    <>
      <Num
        in={s}
        name="limit"
        label="May level off at"
        unit="microns"
        hint={`${USUAL_LIMIT_MICRONS} is common practice; the maker’s figure comes first.`}
      />
      <Usual in={s} name="limit" values={[String(USUAL_LIMIT_MICRONS)]} unit="microns" />
      <Num in={s} name="microns" label={readings.length === 0 ? 'Gauge as the pump is shut off' : 'Gauge now'} unit="microns" />
      <TouchButton disabled={microns === null || microns <= 0} onClick={add}>
        {readings.length === 0 ? 'Pump shut off now' : 'Keep this reading'}
      </TouchButton>
      {judged ? <Judged j={judged} limit={limit ?? USUAL_LIMIT_MICRONS} /> : null}
      <div className="flex flex-col gap-1">
        <label htmlFor="sealed-readings" className="font-bold">
          Minutes and microns, a line each
        </label>
        <textarea
          id="sealed-readings"
          rows={Math.min(12, Math.max(3, readings.length + 1))}
          className="w-full rounded-md border border-edge bg-sheet px-3 py-3 text-ink"
          value={draft.readings ?? ''}
          onChange={(e) => s.put('readings', e.target.value)}
        />
        <p className="text-sm text-soft">Paste from a gauge’s log, or correct a slip. {readings.length} readings.</p>
        {odd.length > 0 ? (
          <p role="alert" className="font-bold text-alarm">
            Not read: {odd.slice(0, 3).join('; ')}
          </p>
        ) : null}
      </div>
    </>
  );
}

const NEXT: Record<VacuumJudgement['verdict'], string> = {
  tight_and_dry: 'Charge it.',
  moisture: 'Break the vacuum with dry nitrogen, pump again, warm it gently.',
  leak: 'Look for it under nitrogen before you pump on. If none is found it was water: pump and watch again.',
  leak_and_moisture: 'Look for a leak under nitrogen first; then dry it: nitrogen, gentle warmth, pump again.',
  not_yet: '',
  too_high: '',
};

function Judged({ j, limit }: { j: VacuumJudgement; limit: number }) {
  const bad = j.verdict !== 'tight_and_dry' && j.verdict !== 'not_yet';
  return (
    <Verdict title={VACUUM_VERDICT[j.verdict]} alarm={bad}>
      <p>
        {j.waitMinutes === null ? NEXT[j.verdict] : `Watch ${j.waitMinutes} minutes more before you decide.`}
        {j.verdict === 'too_high' ? '' : ` ${vacuumFigures(j, limit)}`}
      </p>
    </Verdict>
  );
}
