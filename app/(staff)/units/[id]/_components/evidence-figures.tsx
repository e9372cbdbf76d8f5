import { Figure } from '@/app/_ui/figures/figure';
import { Loss } from '@/app/_ui/figures/loss';
import {
  differenceIn,
  gaugePressureIn,
  KWH_PER_30_DAYS,
  moneyPer30Days,
  PERCENT,
  temperatureIn,
  type Scale,
} from '@/app/_ui/figures/measure';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { VERDICT } from '@/app/_ui/states/verdict';
import { dayDateWords } from '@/lib/core/calendar/when';
import { CAUSE_LABEL, likelyWords, type EstimateOk, type Figure as Banded, type NowAndClean } from '@/lib/core/condenser';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import type { UnitEvidenceShown } from '@/lib/core/evidence/shown';

/** What the last reading said, each figure with its band, and what was taken for granted. */
export function EvidenceFigures({ evidence, units }: { evidence: UnitEvidenceShown; units: MeasureUnits }) {
  const { latest } = evidence;
  if (!latest)
    return (
      <Sheet title="The coil by its readings">
        <p className="text-soft">
          No reading yet: rates rest on what was seen. A head pressure or a clamp on the bend, with the air at the coil, would say what it
          costs.
        </p>
      </Sheet>
    );
  const { estimate: e } = latest;
  const verdict = VERDICT[e.verdict];
  const since = evidence.cleanings.filter((c) => c > latest.on).length;
  return (
    <Sheet
      title="The coil by its last reading"
      aside={
        <span className="flex flex-wrap gap-x-4 text-sm">
          <State shape={verdict.shape} tone={verdict.tone}>
            {verdict.label}
          </State>
          <span className="text-soft">
            {dayDateWords(latest.on)},{' '}
            {latest.reading.phase === 'after' ? 'after cleaning' : latest.reading.phase === 'before' ? 'before cleaning' : 'logged'}
          </span>
        </span>
      }
    >
      {since > 0 ? (
        <p className="mb-2 text-sm font-bold">
          Cleaned {since === 1 ? 'once' : `${since} times`} since without a reading: this is the coil as it was then.
        </p>
      ) : null}
      <p className="max-w-[75ch] text-lg">{e.sentence}</p>
      {e.status === 'ok' ? <EstimateFigures e={e} units={units} currency={evidence.conditions.currency} /> : null}
      {e.causes.length > 0 && (e.verdict === 'look_elsewhere' || e.verdict === 'look_first') ? <Causes e={e as EstimateOk} /> : null}
    </Sheet>
  );
}

function EstimateFigures({ e, units, currency }: { e: EstimateOk; units: MeasureUnits; currency: string }) {
  const rise = differenceIn(units);
  const t = temperatureIn(units);
  return (
    <>
      <dl className="mt-4 grid grid-cols-2 gap-x-6 gap-y-4 sm:grid-cols-3 [&>div:nth-child(-n+2)_b]:text-2xl">
        <One loss label="Heat transfer lost" of={e.conductanceLost} scale={PERCENT} />
        <One loss label="Cooling lost, hot day" of={e.coolingLostHotDay} scale={PERCENT} />
        <One loss label="Extra energy, 30 days" of={e.extraEnergyKwhPerDay} scale={KWH_PER_30_DAYS} />
        <One loss label="Extra cost, 30 days" of={e.extraCostPerDay} scale={moneyPer30Days(currency)} none="no energy price on file" />
        <One label="Rise over air" of={e.riseK} scale={rise} />
        <One label="Rise when clean" of={e.cleanRiseK} scale={rise} />
        <Pair label="Trips at air of" of={e.cutoutAirK} scale={t} none="no cut-out on file" />
        <Pair label="Discharge, hot day" of={e.dischargeHotDayK} scale={t} />
        <Pair label="Head, hot day" of={e.headHotDayPaGauge} scale={gaugePressureIn(units)} />
      </dl>
      {e.cannotKeepUp ? (
        <p className="mt-3 font-bold text-alarm">
          On a usual day it could not hold the box even running all day. Watch the food: tell the kitchen, and let them check it by
          thermometer.
        </p>
      ) : null}
      <details className="mt-4">
        <summary className="text-sm font-bold text-cold">What was taken for granted</summary>
        <ul className="mt-2 list-disc pl-5 text-sm text-soft">
          {e.assumptions.map((a) => (
            <li key={a}>{a}</li>
          ))}
        </ul>
      </details>
      <p className="mt-3 max-w-[75ch] text-sm text-soft">
        Heat transfer lost (the coil’s conductance) and cooling lost are different numbers: a coil that lost 42 % of the one cost 3 % of the
        other in the field data behind this. What grease does is extrapolated from tests with dust and with reduced airflow.
      </p>
    </>
  );
}

type OneProps = { label: string; scale: Scale; none?: string };

/** `loss`: it cannot be less than nothing, so a band that reaches there is told by its upper end. */
function One({ label, of, none, scale, loss }: OneProps & { of: Banded | null; loss?: boolean }) {
  return (
    <div>
      <dt className="text-sm text-soft">{label}</dt>
      <dd>
        {!of && none ? <span className="text-soft">{none}</span> : loss ? <Loss of={of} scale={scale} /> : <Figure of={of} scale={scale} />}
      </dd>
    </div>
  );
}

function Pair({ label, of, none, scale }: OneProps & { of: NowAndClean | null }) {
  return (
    <div>
      <dt className="text-sm text-soft">{label}</dt>
      <dd>
        {of ? (
          <>
            <Figure of={of.now} scale={scale} />
            <br />
            <span className="text-sm text-soft">
              clean <Figure of={of.clean} scale={scale} />
            </span>
          </>
        ) : (
          <span className="text-soft">{none ?? 'can’t say'}</span>
        )}
      </dd>
    </div>
  );
}

/** Candidates in the order of belief, with what speaks for and against them. */
function Causes({ e }: { e: EstimateOk }) {
  return (
    <ol className="mt-4 flex flex-col gap-3 border-l-2 border-line pl-4">
      {e.causes
        .filter((c) => c.id !== 'nothing')
        .slice(0, 3)
        .map((c) => (
          <li key={c.id}>
            <b className="inline-block first-letter:uppercase">{CAUSE_LABEL[c.id]}</b>{' '}
            <span className="text-soft">
              {likelyWords(c.weight)}, {Math.round(c.weight * 100)} %
            </span>
            {c.for.length > 0 ? <p className="text-sm">For: {c.for.join(' ')}</p> : null}
            {c.against.length > 0 ? <p className="text-sm">Against: {c.against.join(' ')}</p> : null}
            <p className="text-sm text-soft">{c.next}</p>
          </li>
        ))}
    </ol>
  );
}
