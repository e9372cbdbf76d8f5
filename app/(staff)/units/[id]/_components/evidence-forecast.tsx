import { Figure } from '@/app/_ui/figures/figure';
import { Loss } from '@/app/_ui/figures/loss';
import { KWH_PER_30_DAYS, moneyPer30Days, PERCENT } from '@/app/_ui/figures/measure';
import { shortDateWords } from '@/lib/core/calendar/when';
import { daysBetween, type LocalDate } from '@/lib/core/calendar';
import { counted } from '@/lib/core/wording/counted';
import type { UnitEvidenceShown } from '@/lib/core/evidence/shown';

/** "13 Dec", with the year where it is not this one. */
const when = (d: LocalDate | null, today: LocalDate) => (d ? shortDateWords(d, today) : 'beyond ten years');

/** How fast it fouls, when its limits come, and why the next date is where it is. */
export function EvidenceForecast({ evidence }: { evidence: UnitEvidenceShown }) {
  const { fouling, limitDates, today, ownLimits } = evidence;
  const month = (rate: number) => 1 - Math.exp(-30 * Math.max(0, rate));
  const rate = { value: month(fouling.rate.mean), lo: month(fouling.rate.low), hi: month(fouling.rate.high) };
  const { cleanings, grades, readings, setAside } = fouling.evidence;
  return (
    <div className="mt-5 grid grid-cols-1 gap-x-8 gap-y-4 md:grid-cols-2 xl:grid-cols-3">
      <div>
        <h3>Today</h3>
        <p>
          Has lost <Loss of={evidence.todayLost} scale={PERCENT} none="nothing to be seen" /> of its heat transfer. In 30 days that costs{' '}
          {evidence.todayMoney ? (
            <>
              <Loss of={evidence.todayMoney} scale={moneyPer30Days(evidence.conditions.currency)} />,{' '}
            </>
          ) : null}
          <Loss of={evidence.todayKwh} scale={KWH_PER_30_DAYS} />
          {evidence.todayMoney ? '.' : '; no energy price is on file.'}
        </p>
      </div>
      <div>
        <h3>How fast</h3>
        <p>
          Loses <Loss of={rate} scale={PERCENT} none="nothing to be seen" /> of its heat transfer in 30 days. A cleaning takes off{' '}
          <Figure of={restored(fouling.restore)} scale={PERCENT} /> of what sits on it.
        </p>
        <p className="text-sm text-soft">
          From {counted(grades, 'look')} at the coil, {counted(readings, 'reading')} and {counted(cleanings, 'cleaning')}
          {setAside > 0 ? `; ${counted(setAside, 'reading')} set aside because another cause led` : ''}.
        </p>
      </div>
      <div>
        <h3>If nothing is done</h3>
        {limitDates.length === 0 ? <p className="text-soft">None of its limits can be worked out.</p> : null}
        <ul className="flex flex-col gap-1">
          {limitDates.map((f) => (
            <li key={f.limit.name}>
              <b>{f.limit.name}</b>{' '}
              {passed(f.quantiles.p50, today) ? (
                'is likely passed already'
              ) : (
                <>
                  passes its limit about <b className="whitespace-nowrap">{when(f.quantiles.p50, today)}</b>
                </>
              )}{' '}
              <span className="whitespace-nowrap text-soft">
                ({when(f.quantiles.p10, today)} to {when(f.quantiles.p90, today)})
              </span>
            </li>
          ))}
        </ul>
        {ownLimits && ownLimits.passedClean.length > 0 ? (
          <p className="text-sm text-soft">
            {ownLimits.passedClean.join(', ')}: beyond its limit on a hot day even with a clean coil, so it says nothing of the coil. Look
            at it apart.
          </p>
        ) : null}
      </div>
    </div>
  );
}

const passed = (d: LocalDate | null, today: LocalDate) => d !== null && daysBetween(today, d) <= 0;

/** The part of a deposit that a cleaning takes off: no more than all of it, however the belief spreads. */
function restored({ mean, sd }: { mean: number; sd: number }) {
  const share = (x: number) => Math.min(1, Math.max(0, x));
  return { value: share(mean), lo: share(mean - 1.28 * sd), hi: share(mean + 1.28 * sd) };
}
