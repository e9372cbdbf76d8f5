import { useMemo } from 'react';
import { State } from '@/app/_ui/states/state';
import { VERDICT } from '@/app/_ui/states/verdict';
import type { LineFigures } from '@/lib/core/condenser/readings/lines';
import type { Estimate, EstimateOk, Figure } from '@/lib/core/condenser/types';
import { seenAt } from '@/lib/core/findings/seen';
import { differenceUnit, ownDifference, toOwn, unitOf, type Me, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import type { ReadingSoFar } from '@/lib/core/tablet/estimate-for';
import { formatBand } from '@/lib/core/measures/display';
import { useSnapshot } from '../../_lib/tablet-context';
import { useEstimator } from '../../_lib/use-estimator';
import { useWide } from '../../_lib/use-wide';
import { Causes } from './causes';

/** What the reading means, as it is typed: figures with bands, causes, and what would decide between them. */
export function EstimatePanel({ visit, unit, reading }: { visit: VisitOnFile; unit: UnitOnFile; reading: ReadingSoFar }) {
  const me = useSnapshot((s) => s.me);
  const wide = useWide();
  const estimator = useEstimator(unit.refrigerant);
  // As in the office: the grades that held when it was taken.
  const seen = useMemo(
    () =>
      seenAt(
        visit.entries.findings.filter((f) => f.unitId === unit.id),
        reading.phase,
      ),
    [visit.entries.findings, unit.id, reading.phase],
  );
  const result = useMemo(
    () => estimator?.estimateFor(unit, visit.kitchen, me?.currency ?? 'USD', reading, seen) ?? null,
    [estimator, unit, visit.kitchen, me?.currency, reading, seen],
  );
  const lines = useMemo(() => estimator?.linesFor(unit, visit.kitchen, reading) ?? null, [estimator, unit, visit.kitchen, reading]);
  if (!me || !result) return null;
  const look = VERDICT[result.verdict];
  const [lead = '', ...rest] = result.sentence.split(/(?<=\.) /);
  return (
    <section aria-label="Estimate" aria-live="polite" className="rounded-md border border-cold bg-cold-wash px-3 py-2 sm:p-3">
      <p className="text-lg font-bold leading-snug">{lead}</p>
      {/* One that can't say has said so. */}
      {result.status === 'ok' ? (
        <p className="mt-1">
          <State shape={look.shape} tone={look.tone}>
            {look.label}
          </State>
        </p>
      ) : null}
      {lines ? <Lines lines={lines} me={me} /> : null}
      {wide ? (
        <>
          {rest.length > 0 ? <p className="mt-1">{rest.join(' ')}</p> : null}
          <Causes causes={result.causes} fine={result.verdict === 'fine'} />
        </>
      ) : (
        <Why rest={rest.join(' ')} result={result} />
      )}
      <Figures result={result} me={me} />
    </section>
  );
}

/** On a phone the sentence leads and the rest is one tap away. */
function Why({ rest, result }: { rest: string; result: Estimate }) {
  if (!rest && result.causes.length === 0) return null;
  return (
    <details>
      <summary className="flex min-h-12 items-center font-bold text-cold">Why, and what to look at</summary>
      {rest ? <p>{rest}</p> : null}
      <Causes causes={result.causes} fine={result.verdict === 'fine'} />
    </details>
  );
}

const percent = (f: Figure) => formatBand(f.value * 100, f.lo * 100, f.hi * 100, '%');

const differenceOf = (me: Me) => (f: Figure) =>
  formatBand(ownDifference(f.value, me), ownDifference(f.lo, me), ownDifference(f.hi, me), differenceUnit(me));

/** Superheat, subcooling and condensing over the water, where both ends of one were read. */
function Lines({ lines, me }: { lines: LineFigures; me: Me }) {
  const figures = [
    ['Superheat', lines.superheatK],
    ['Subcooling', lines.subcoolingK],
    ['Condensing over the water leaving', lines.overWaterK],
  ] as const;
  if (figures.every(([, f]) => f === null)) return null;
  return (
    <dl className="mt-2 flex flex-wrap gap-x-6 gap-y-1">
      {figures.map(([label, f]) =>
        f ? (
          <div key={label} className="flex flex-wrap gap-x-2">
            <dt className="text-soft">{label}</dt>
            <dd className="whitespace-nowrap font-bold">{differenceOf(me)(f)}</dd>
          </div>
        ) : null,
      )}
    </dl>
  );
}

function Figures({ result, me }: { result: Estimate; me: Me }) {
  const kelvin = (f: Figure) =>
    formatBand(toOwn('airInK', f.value, me), toOwn('airInK', f.lo, me), toOwn('airInK', f.hi, me), unitOf('airInK', me));
  const difference = differenceOf(me);
  const rows: [string, string][] = [];
  if (result.condensingK) rows.push(['Condensing', kelvin(result.condensingK)]);
  if (result.riseK) rows.push(['Rise over the air', difference(result.riseK)]);
  if (result.status === 'ok') rows.push(...okRows(result, difference));
  if (rows.length === 0) return null;
  return (
    <details className="sm:mt-2">
      <summary className="flex min-h-12 items-center font-bold text-cold">The figures</summary>
      <dl className="grid grid-cols-[auto_1fr] gap-x-4 gap-y-1 sm:grid-cols-[auto_1fr_auto_1fr]">
        {rows.map(([label, text]) => (
          <div key={label} className="contents">
            <dt className="text-soft">{label}</dt>
            <dd className="font-bold">{text}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

function okRows(e: EstimateOk, difference: (f: Figure) => string): [string, string][] {
  const rows: [string, string][] = [
    ['Rise when clean', difference(e.cleanRiseK)],
    ['Heat transfer lost', percent(e.conductanceLost)],
  ];
  if (e.coolingLostHotDay) rows.push(['Cooling lost, hot day', percent(e.coolingLostHotDay)]);
  const extra = e.extraEnergyKwhPerDay;
  if (extra) rows.push(['Extra energy', formatBand(extra.value, extra.lo, extra.hi, 'kWh/day')]);
  const cost = e.extraCostPerDay;
  if (cost) rows.push(['Extra cost', formatBand(cost.value, cost.lo, cost.hi, `${cost.currency}/day`)]);
  return rows;
}
