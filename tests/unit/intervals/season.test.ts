import { beforeAll, expect, it } from 'vitest';
import { addDays, daysBetween, localDate, weeksRule, type LocalDate } from '@/lib/core/calendar';
import { GRADES, type CoilGrade } from '@/lib/core/findings/grades';
import { DEFAULT_HYPER as H, fitHyper, posterior, type FleetUnit, type Hyper, type UnitEvent } from '@/lib/core/fouling';
import { DEFAULT_POLICY, reviseCoilRule } from '@/lib/core/intervals';
import { RandomStream } from '@/lib/core/numerics/random';

const START = localDate('2022-01-01');
const PLACE = 'outdoors';

/** A coil that gathers fluff for six weeks from late May, twelve times as fast as else; cleaned on these days. */
function coil(rate: number, cleanedOn: readonly number[], eye: () => number): UnitEvent[] {
  let [deposit, from] = [0, 0];
  return cleanedOn.flatMap((day): UnitEvent[] => {
    for (let d = from; d < day; d++) {
      const ofYear = (d + 1) % 365.25;
      deposit += rate * (ofYear > 143 && ofYear < 187 ? 5.2 : 0.42);
    }
    const step = H.grades.thresholds.filter((c) => deposit + eye() > c).length;
    [deposit, from] = [0.05 * deposit, day];
    const on = addDays(START, day);
    const grade = (GRADES.coil[step] as { grade: CoilGrade }).grade;
    return [{ kind: 'coil', on, grade, phase: 'before' }, { kind: 'cleaning', on }]; // prettier-ignore
  });
}

let fitted: Hyper;

beforeAll(() => {
  const shop = Array.from({ length: 20 }, (_, i): FleetUnit => {
    const s = new RandomStream(47, `outdoors ${i}`);
    const days: number[] = [];
    for (let d = s.whole(40, 100); d < 1400; d += s.whole(40, 100)) days.push(d);
    const rate = Math.exp(H.lnRate.outdoors + 0.3 + 0.3 * s.normal());
    const events = coil(rate, days, () => s.normal(0, 0.04));
    return { history: { startedOn: START, startedClean: true, events }, exposure: { placement: PLACE, kitchenId: `k${i % 5}` } };
  });
  fitted = fitHyper(shop, H, 'test');
}, 60_000);

/** Days to the next date of a coil cleaned each April and October, so that visits miss June, after the newest of these. */
function nextAfter(last: LocalDate, hyper: Hyper): number {
  const days = ['2022-04-10', '2022-10-10', '2023-04-10', '2023-10-10', '2024-04-10', '2024-10-10']
    .map((d) => daysBetween(START, localDate(d)))
    .filter((d) => d <= daysBetween(START, last));
  const history = { startedOn: START, startedClean: true, events: coil(Math.exp(H.lnRate.outdoors + 0.3), days, () => 0) };
  const r = reviseCoilRule({
    history,
    hyper,
    posterior: posterior(history, { placement: PLACE, kitchenId: 'new' }, hyper),
    settings: DEFAULT_POLICY,
    currency: 'USD',
    currentRule: weeksRule(26),
    anchor: 'last_completed',
    lastDoneOn: last,
  });
  return daysBetween(last, r.dueOn);
}

it('an outdoor coil that is matted each June is not left to drift past it, though visits miss June', () => {
  const spring = localDate('2024-04-10');
  const blind = { ...fitted, season: {} };
  // The fluff of the year is over on 5 July.
  expect(nextAfter(spring, fitted)).toBeLessThanOrEqual(daysBetween(spring, localDate('2024-07-19')));
  expect(nextAfter(spring, fitted)).toBeLessThan(nextAfter(spring, blind) - 21);
  // From autumn on there is no hurry.
  expect(nextAfter(localDate('2024-10-10'), fitted)).toBeGreaterThan(1.4 * nextAfter(spring, fitted));
});
