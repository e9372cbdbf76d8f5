import { useMemo } from 'react';
import { State } from '@/app/_ui/states/state';
import type { Figure } from '@/lib/core/condenser/types';
import { differenceUnit, ownDifference, type ReadingEntry, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { formatBand } from '@/lib/core/measures/display';
import { useSnapshot } from '../../_lib/tablet-context';
import { useEstimator } from '../../_lib/use-estimator';
import { Card } from '../touch';

const asTyped = (r: ReadingEntry) => ({
  phase: r.phase,
  at: Date.parse(r.at),
  values: r.values,
  gaugeGrade: r.gaugeGrade,
  gaugeSpanPa: r.gaugeSpanPa,
});

const WORDS = {
  better: { shape: 'done', tone: 'cold', words: 'The cleaning helped' },
  no_change: { shape: 'ask', tone: 'alarm', words: 'No change after cleaning: look for another cause' },
  worse: { shape: 'late', tone: 'alarm', words: 'Worse than before: look at fan, airflow and what was left behind' },
} as const;

/** Both readings side by side, and whether the cleaning did anything beyond what the instruments leave open. */
export function BeforeAfter({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const me = useSnapshot((s) => s.me);
  const estimator = useEstimator(unit.refrigerant);
  const of = (phase: string) => visit.entries.readings.find((r) => r.unitId === unit.id && r.phase === phase);
  const [before, after] = [of('before'), of('after')];
  const comparison = useMemo(
    () => (estimator && before && after ? estimator.compareFor(unit, visit.kitchen, asTyped(before), asTyped(after)) : null),
    [estimator, unit, visit.kitchen, before, after],
  );
  if (!comparison || !me) return null;
  if (comparison.status === 'cannot_say') return <Card title="Before and after">{comparison.sentence}</Card>;
  const rise = (f: Figure) => formatBand(ownDifference(f.value, me), ownDifference(f.lo, me), ownDifference(f.hi, me), differenceUnit(me));
  const look = WORDS[comparison.outcome];
  return (
    <Card title="Before and after">
      <p className="text-lg">
        <State shape={look.shape} tone={look.tone}>
          <span className="whitespace-normal">{look.words}</span>
        </State>
      </p>
      <dl className="mt-2 grid grid-cols-2 gap-4">
        <div>
          <dt className="text-soft">Rise before</dt>
          <dd className="text-xl font-bold">{rise(comparison.riseBeforeK)}</dd>
        </div>
        <div>
          <dt className="text-soft">Rise after</dt>
          <dd className="text-xl font-bold">{rise(comparison.riseAfterK)}</dd>
        </div>
      </dl>
      <details className="mt-2">
        <summary className="flex min-h-12 items-center font-bold text-cold">The figures</summary>
        <p>
          Conductance regained:{' '}
          <b>{formatBand(comparison.regained.value * 100, comparison.regained.lo * 100, comparison.regained.hi * 100, '%')}</b>
        </p>
      </details>
    </Card>
  );
}
