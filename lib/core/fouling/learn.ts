import { toDay } from '../calendar';
import { PLACEMENTS } from '../equipment/build';
import { GRADES, gradeIndex } from '../findings/grades';
import type { FleetUnit } from './fleet';
import type { Hyper } from './hyper';
import { NO_MESSAGE, weigh } from './pooling';
import { filterHistory } from './posterior';
import type { Season } from './season';

/** ln likelihood of some units' whole histories, each on its own. */
function evidenceOf(units: readonly FleetUnit[], h: Hyper): number {
  return units.reduce((sum, { history, exposure }) => {
    const { run } = filterHistory(history, exposure, h);
    return sum + weigh(run.bank, h, exposure.placement, NO_MESSAGE).logEvidence;
  }, 0);
}

/** A positive number of the model that the fleet's evidence may scale; `sd` is how far, in ln, it is believed off beforehand. */
type Scale = {
  of: (h: Hyper) => number;
  with: (h: Hyper, value: number) => Hyper;
  step: number;
  sd: number;
  most: number;
  /** Units that say something of it; left out: all. */
  speaks?: (unit: FleetUnit) => boolean;
};

type Steps = Hyper['grades']['thresholds'];
const steppedAt = ([a, b, c, d]: Steps, i: number, value: number): Steps => [
  i === 0 ? value : a,
  i === 1 ? value : b,
  i === 2 ? value : c,
  i === 3 ? value : d,
];

const SCALES: readonly Scale[] = [
  { of: (h) => h.diffusion, with: (h, diffusion) => ({ ...h, diffusion }), step: 1.5, sd: Math.LN2, most: 0.2 },
  { of: (h) => h.drift, with: (h, drift) => ({ ...h, drift }), step: 1.6, sd: Math.LN2, most: 1 },
  { of: (h) => h.changePerYear, with: (h, changePerYear) => ({ ...h, changePerYear }), step: 1.8, sd: 1, most: 0.6 },
  { of: (h) => h.misread, with: (h, misread) => ({ ...h, misread }), step: 1.7, sd: 1, most: 0.3 },
  {
    of: (h) => h.restore.baked,
    with: (h, baked) => ({ ...h, restore: { ...h.restore, baked } }),
    step: 1.5,
    sd: Math.LN2,
    most: 1,
  },
  {
    of: (h) => h.restore.cleaningSd,
    with: (h, cleaningSd) => ({ ...h, restore: { ...h.restore, cleaningSd } }),
    step: 1.8,
    sd: 1,
    most: 0.3,
  },
  {
    of: (h) => h.unknownRunDays,
    with: (h, unknownRunDays) => ({ ...h, unknownRunDays }),
    step: 1.5,
    sd: Math.LN2,
    most: 365,
    speaks: ({ history }) => !history.startedClean,
  },
  // Where this shop's people step from grade to grade, judged to a tenth: only readings of the same coils tell. Drawn from the model itself
  // the likelihood has them some 3 % low, since a look is taken by two moments: so steps are wide, and no shop is moved by that.
  ...([0, 1, 2, 3] as const).map((i) => ({
    of: (h: Hyper) => h.grades.thresholds[i],
    with: (h: Hyper, value: number): Hyper => ({ ...h, grades: { ...h.grades, thresholds: steppedAt(h.grades.thresholds, i, value) } }),
    step: 1.1,
    sd: 0.1,
    most: 1,
    speaks: ({ history }: FleetUnit) => history.events.some((e) => e.kind === 'reading' && e.setAside === undefined && !e.teaches),
  })),
];

/** One step of each scale up or down, where the evidence gains more than the prior loses. */
export function learnScales(units: readonly FleetUnit[], start: Hyper, base: Hyper): Hyper {
  let h = start;
  let here = evidenceOf(units, h);
  for (const scale of SCALES) {
    if (scale.speaks && !units.some(scale.speaks)) continue;
    const prior = (value: number) => -0.5 * (Math.log(value / scale.of(base)) / scale.sd) ** 2;
    const now = scale.of(h);
    for (const value of [now / scale.step, Math.min(now * scale.step, scale.most)]) {
      const other = scale.with(h, value);
      const there = evidenceOf(units, other);
      if (there + prior(value) <= here + prior(scale.of(h))) continue;
      [h, here] = [other, there];
      break;
    }
  }
  return h;
}

/** Looks that the fleet's own share of misread grades counts for, against one person's looks that said the same. */
const EYE_WORTH = 12;

/** Chance that a look of each person is misread and then says this grade, by the chance that each of the looks was one; drawn towards the fleet's. */
export function learnEyes(units: readonly FleetUnit[], h: Hyper): Hyper {
  const doubt = new Map<string, Float64Array>();
  const looks = new Map<string, number>();
  for (const { history, exposure } of units)
    filterHistory(history, exposure, h, (e, misread) => {
      if (e.by === undefined) return;
      const d = doubt.get(e.by) ?? new Float64Array(GRADES.coil.length);
      d[gradeIndex('coil', e.grade)]! += misread;
      doubt.set(e.by, d);
      looks.set(e.by, (looks.get(e.by) ?? 0) + 1);
    });
  const eyes: Record<string, readonly number[]> = {};
  for (const [by, d] of doubt) {
    const slips = Array.from(d, (x) => (x + (EYE_WORTH * h.misread) / d.length) / ((looks.get(by) ?? 0) + EYE_WORTH));
    // Of somebody who misreads more than every second look, the looks still say something.
    const all = slips.reduce((a, b) => a + b, 0);
    eyes[by] = slips.map((x) => x * Math.min(1, 0.5 / all));
  }
  return { ...h, eyes };
}

/** Days of record without which no year can be told from another thing. */
export const ENOUGH_DAYS = 500;
/** The same for weeks of a year (fluff), which came and went: a change that came to stay can look like half a year, and not like those. */
const ENOUGH_DAYS_FOR_WEEKS = 330;
/** Visits without which a placement keeps no season of its own. */
const ENOUGH_LOOKS = 30;
/** ln likelihood that a season must gain: three numbers looked for over a grid, by about the Bayesian information criterion. */
export const MUST_GAIN = 6;
const PEAKS = [15, 76, 136, 167, 197, 258, 319];

/** The yearly course that `score`, a ln likelihood, likes best, and what it gains over none; with `onlyWeeks` none that is wider than some weeks. */
export function bestSeason(score: (s: Season) => number, onlyWeeks = false): { season: Season; gain: number } {
  const none = score({ share: 0, kappa: 1, peak: 0 });
  let best = { season: { share: 0, kappa: 1, peak: 0 } as Season, gain: 0 };
  const tryOn = (season: Season) => {
    const gain = score(season) - none;
    if (gain > best.gain) best = { season, gain };
  };
  for (const peak of PEAKS) for (const kappa of onlyWeeks ? [12] : [1.5, 12]) tryOn({ share: 0.5, kappa, peak });
  for (const step of [15, 7]) for (const side of [-step, step]) tryOn({ ...best.season, peak: (best.season.peak + side + 365) % 365 });
  for (const kappa of onlyWeeks ? [25] : [0.5, 4, 25]) tryOn({ ...best.season, kappa });
  for (const share of [0.25, 0.75, 0.9]) tryOn({ ...best.season, share });
  return best;
}

/** A yearly course for each placement whose evidence asks for one, loudly enough; the others keep none. */
export function learnSeasons(units: readonly FleetUnit[], h: Hyper): Hyper {
  const season: Hyper['season'] = {};
  for (const placement of PLACEMENTS) {
    const own = units.filter((u) => u.exposure.placement === placement);
    const looks = own.reduce((n, u) => n + u.history.events.filter((e) => e.kind === 'coil').length, 0);
    const days = own.reduce((most, { history: { startedOn, events } }) => {
      return events.reduce((m, e) => Math.max(m, toDay(e.on) - toDay(startedOn)), most);
    }, 0);
    if (looks < ENOUGH_LOOKS || days < ENOUGH_DAYS_FOR_WEEKS) continue;
    const score = (s: Season) => evidenceOf(own, { ...h, season: { ...h.season, [placement]: s } });
    const { season: found, gain } = bestSeason(score, days < ENOUGH_DAYS);
    if (gain > MUST_GAIN) season[placement] = found;
  }
  return { ...h, season };
}
