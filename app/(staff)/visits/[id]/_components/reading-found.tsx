import type { UnitReport } from '@/lib/core/tablet/visit-report';
import { Figure } from '@/app/_ui/figures/figure';
import { differenceIn, PERCENT } from '@/app/_ui/figures/measure';
import { timeIn } from '@/lib/core/calendar/when';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { FIELD_INFO, ownText, READING_FIELDS } from '@/lib/core/tablet';

const PHASE = { before: 'Before cleaning', after: 'After cleaning', log: 'Logged' } as const;

/** A reading as it stands on file, what was asked about it, and what it means. */
export function ReadingFound({
  reading: r,
  units,
  timeZone,
}: {
  reading: UnitReport['readings'][number];
  units: MeasureUnits;
  timeZone: string;
}) {
  const own = { temperatureUnit: units.temperature, pressureUnit: units.pressure };
  const given = READING_FIELDS.filter((f) => r.values[f] !== undefined);
  return (
    <section className={r.superseded ? 'text-soft' : ''}>
      <h3>
        {PHASE[r.phase]}{' '}
        <span className="text-sm font-normal text-soft">
          {timeIn(r.at, timeZone)}, {r.by}
          {r.superseded ? ', replaced by a later reading' : ''}
        </span>
      </h3>
      <p>{given.map((f) => `${FIELD_INFO[f].label.toLowerCase()} ${ownText(f, r.values[f] ?? NaN, own)}`).join(', ')}</p>
      {r.questioned.map((q) => (
        <p key={q.question} className="text-sm">
          <b>Asked:</b> {q.question} <b>Answered:</b> {q.answer}
        </p>
      ))}
      {r.estimate && !r.superseded ? (
        <div className="mt-1 rounded-md bg-cold-wash px-3 py-2">
          {r.estimate.status === 'ok' ? (
            <p className="flex flex-wrap gap-x-5">
              <span>
                rise <Figure of={r.estimate.riseK} scale={differenceIn(units)} />
              </span>
              <span>
                heat transfer lost <Figure of={r.estimate.conductanceLost} scale={PERCENT} />
              </span>
              {r.estimate.coolingLostHotDay ? (
                <span>
                  cooling lost on a hot day <Figure of={r.estimate.coolingLostHotDay} scale={PERCENT} />
                </span>
              ) : null}
            </p>
          ) : null}
          <p>{r.estimate.sentence}</p>
        </div>
      ) : null}
    </section>
  );
}
