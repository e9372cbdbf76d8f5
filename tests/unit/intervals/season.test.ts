import { beforeAll, expect, it } from 'vitest';
import { addDays, daysBetween, localDate, weeksRule, type LocalDate } from '@/lib/core/calendar';
import { GRADES, type CoilGrade } from '@/lib/core/findings/grades';
import { DEFAULT_HYPER as H, fitHyper, posterior, type FleetUnit, type Hyper, type UnitEvent } from '@/lib/core/fouling';
import { DEFAULT_POLICY, reviseCoilRule } from '@/lib/core/intervals';
import { RandomStream } from '@/lib/core/numerics/random';

const START = localDate('2022-01-01');
const PLACE = 'outdoors';

/** A coil that gathers fluff for six weeks from late May, twelve times as fast as else; cleaned on these days. */
const coil = (rate: number, cleanedOn: readonly number[], eye: () => number): UnitEvent[] =>
  coilOf((day) => rate * (day % 365.25 > 143 && day % 365.25 < 187 ? 5.2 : 0.42), cleanedOn, eye);

/** One that gathers three times as fast from the middle of the first year on, and goes on so. */
const changed = (rate: number, cleanedOn: readonly number[], eye: () => number): UnitEvent[] =>
  coilOf((day) => rate * (day > 150 ? 3 : 1), cleanedOn, eye);

function coilOf(gainOn: (day: number) => number, cleanedOn: readonly number[], eye: () => number): UnitEvent[] {
  let [deposit, from] = [0, 0];
  return cleanedOn.flatMap((day): UnitEvent[] => {
    for (let d = from; d < day; d++) deposit += gainOn(d + 1);
    const step = H.grades.thresholds.filter((c) => deposit + eye() > c).length;
    [deposit, from] = [0.05 * deposit, day];
    const on = addDays(START, day);
    const grade = (GRADES.coil[step] as { grade: CoilGrade }).grade;
    return [{ kind: 'coil', on, grade, phase: 'before' }, { kind: 'cleaning', on }]; // prettier-ignore
  });
}

/** Twenty coils outdoors, looked at now and then for so many days, each of what `met` makes of its days. */
const shopOver = (days: number, met: typeof coil): FleetUnit[] =>
  Array.from({ length: 20 }, (_, i): FleetUnit => {
    const s = new RandomStream(47, `outdoors ${i}`);
    const on: number[] = [];
    for (let d = s.whole(40, 100); d < days; d += s.whole(40, 100)) on.push(d);
    const rate = Math.exp(H.lnRate.outdoors + 0.3 + 0.3 * s.normal());
    const events = met(rate, on, () => s.normal(0, 0.04));
    return { history: { startedOn: START, startedClean: true, events }, exposure: { placement: PLACE, kitchenId: `k${i % 5}` } };
  });

let fitted: Hyper;

beforeAll(() => {
  fitted = fitHyper(shopOver(1400, coil), H, 'test');
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

it('one June is enough to know of the next, and a change that came to stay in a first year is no season', () => {
  const first = fitHyper(shopOver(364, coil), H, 'one year');
  const peak = first.season[PLACE]?.peak;
  expect(peak).toBeGreaterThan(143);
  expect(peak).toBeLessThan(187);
  const spring = localDate('2023-04-10');
  expect(nextAfter(spring, first)).toBeLessThan(nextAfter(spring, { ...first, season: {} }) - 21);
  expect(fitHyper(shopOver(364, changed), H, 'changed').season).toEqual({});
  // Of half a year nothing is known.
  expect(fitHyper(shopOver(300, coil), H, 'too little').season).toEqual({});
}, 60_000);
