import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, localDate, weeksRule } from '@/lib/core/calendar';
import { failurePosterior, type FailurePrior, type Inspection } from '@/lib/core/fouling';
import { DEFAULT_POLICY as P, hiddenFailure, reviseInspectionRule, type InspectionRevisionInput } from '@/lib/core/intervals';

const START = localDate('2025-01-06');
const drains = (...items: [day: number, grade: string][]): Inspection[] =>
  items.map(([day, grade]) => ({ on: addDays(START, day), aspect: 'drain', grade }));

function revise(looks: Inspection[], weeks: number, more: Partial<InspectionRevisionInput> = {}) {
  const last =
    looks
      .map((l) => l.on)
      .sort()
      .pop() ?? START;
  const aspect = more.task === 'evaporator_inspection' ? 'ice' : 'drain';
  return reviseInspectionRule({
    task: 'drain_inspection',
    looks,
    posterior: failurePosterior(
      { aspect, kind: 'walk_in_freezer' },
      START,
      looks.filter((l) => l.aspect === aspect),
    ),
    settings: P,
    currentRule: weeksRule(weeks),
    anchor: 'last_completed',
    lastDoneOn: last,
    ...more,
  });
}

describe('looking at drains', () => {
  it('blocked tightens at once, with its reason', () => {
    const r = revise(drains([91, 'blocked']), 13);
    expect(r).toMatchObject({ changed: true, severe: true, returnVisitWithinDays: 7 });
    expect(r.weeks).toBeLessThanOrEqual(6);
    expect(r.reason).toMatch(
      /^Drain found blocked on 7 Apr 2025; this walk-in freezer is now expected to do so about every [\d.]+ (days|months|years), so looking at it moves from 13 weeks to \d+; clear looks would lengthen it again\.$/,
    );
  });

  it('is asked for as often as a hidden failure deserves', () => {
    const r = revise(drains([50, 'runs'], [120, 'runs']), 26);
    const best = hiddenFailure(r.evidence.rate.mean, P.inspectionCost, P.hiddenFailureCostPerDay);
    expect(r.weeks).toBe(Math.max(P.minWeeksUnlessSevere, Math.floor((best?.days ?? NaN) / 7)));
  });

  it('is laid to the warranty only as far as the warranty goes', () => {
    const looks = drains([120, 'runs']);
    const strict = revise(looks, 30, { bounds: { maxWeeks: 2, maxReason: 'warranty' } });
    expect(strict).toMatchObject({ weeks: 2, guard: 'warranty', reason: expect.stringContaining('asks for no longer than 2 weeks') });
    const wide = revise(looks, 30, { bounds: { maxWeeks: 20, maxReason: 'warranty' } });
    expect(wide.weeks).toBeLessThan(20);
    expect(wide).toMatchObject({ guard: null, reason: expect.stringMatching(/^Clean at the last look, but the drain/) });
  });

  it('says one clean look as one', () => {
    const r = revise(drains([40, 'runs']), 4, { settings: { ...P, inspectionCost: 200 } });
    expect(r.reason).toMatch(/^Clean at the last look; trouble is expected/);
  });

  it('loosens only after two looks that run, and slow is not one', () => {
    const settings = { ...P, inspectionCost: 200, cleanFindings: 2, loosenFactor: 1.25 };
    expect(revise(drains([60, 'runs'], [120, 'slow']), 8, { settings })).toMatchObject({
      changed: false,
      guard: 'needs_clean_findings',
    });
    expect(revise(drains([60, 'runs'], [120, 'runs']), 8, { settings })).toMatchObject({
      weeks: 10,
      guard: 'loosen_limit',
    });
  });

  it('does nothing without a new look, and holds a lock', () => {
    const looks = drains([91, 'blocked']);
    expect(revise(looks, 13, { lastRevisedOn: addDays(START, 91) })).toMatchObject({
      changed: false,
      reason: null,
      guard: 'no_evidence',
    });
    expect(revise([], 13)).toMatchObject({ changed: false, guard: 'no_evidence' });
    expect(revise(looks, 13, { locked: true })).toMatchObject({
      changed: false,
      guard: 'locked',
      wouldHave: { weeks: expect.any(Number) },
    });
  });
});

describe('looking at ice', () => {
  const ice = (grade: string): Inspection[] => [{ on: addDays(START, 91), aspect: 'ice', grade }];

  it('a block is severe; frost between defrosts is not', () => {
    expect(revise(ice('block'), 13, { task: 'evaporator_inspection' })).toMatchObject({
      severe: true,
      returnVisitWithinDays: 7,
    });
    expect(revise(ice('even_frost'), 13, { task: 'evaporator_inspection' }).returnVisitWithinDays).toBeUndefined();
  });

  it('takes no notice of drains', () => {
    expect(revise(drains([91, 'blocked']), 13, { task: 'evaporator_inspection' })).toMatchObject({
      changed: false,
      guard: 'no_evidence',
    });
  });
});

describe('what an inspection’s date rests on', () => {
  /** A drain that ran at two looks, the last on 6 May 2025, whose like fail once in about 450 days, with a season or none. */
  const LOOKS = drains([60, 'runs'], [120, 'runs']);
  const PEAK = { may: 140, november: 320 };
  const prior = (season?: FailurePrior['season']): FailurePrior => ({ shape: 2, days: 900, ...(season ? { season } : {}) });
  const seasonal = (season?: FailurePrior['season'], more: Partial<InspectionRevisionInput> = {}) =>
    revise(LOOKS, 26, {
      posterior: failurePosterior({ aspect: 'drain', kind: 'walk_in_freezer' }, START, LOOKS, prior(season)),
      ...more,
    });

  it('without a season: the year’s rate', () => {
    const r = seasonal();
    const best = hiddenFailure(r.evidence.rate.mean, P.inspectionCost, P.hiddenFailureCostPerDay);
    expect(r.evidence.cheapestDays).toBeCloseTo(best?.days ?? NaN, 6);
    expect(r.reason).not.toContain('at this time of year');
  });

  it.each(Object.values(PEAK))('with one that is worst on day %d of the year: the rate over the very interval', (peak) => {
    const r = seasonal({ share: 0.8, kappa: 4, peak });
    const days = r.evidence.cheapestDays ?? NaN;
    // The mean of the season over the interval, summed day by day from its formula; I₀(4) = 11.3019220 (Abramowitz & Stegun, table 9.8).
    const first = daysBetween(localDate('2025-01-01'), localDate('2025-05-06'));
    const at = (d: number) => 0.2 + (0.8 * Math.exp(4 * Math.cos((2 * Math.PI * (d - peak)) / 365.25))) / 11.301922;
    const whole = Array.from({ length: Math.round(days) }, (_, i) => at(first + i + 0.5));
    const times = whole.reduce((a, b) => a + b, 0) / whole.length;
    const best = hiddenFailure(r.evidence.rate.mean * times, P.inspectionCost, P.hiddenFailureCostPerDay);
    expect(Math.abs(days / (best?.days ?? NaN) - 1)).toBeLessThan(0.03);
  });

  it('is sooner before the worst months than before the best, and says that it is for the season', () => {
    const still = seasonal();
    const soon = seasonal({ share: 0.8, kappa: 4, peak: PEAK.may });
    const late = seasonal({ share: 0.8, kappa: 4, peak: PEAK.november });
    expect(soon.evidence.cheapestDays).toBeLessThan(0.8 * (still.evidence.cheapestDays ?? NaN));
    expect(late.evidence.cheapestDays).toBeGreaterThan(1.2 * (still.evidence.cheapestDays ?? NaN));
    for (const r of [soon, late]) expect(r.reason).toContain('at this time of year');
  });

  it('of a season that is none is the year’s', () => {
    const flat = seasonal({ share: 0, kappa: 4, peak: PEAK.may });
    expect(flat.evidence.cheapestDays).toBeCloseTo(seasonal().evidence.cheapestDays ?? NaN, 1);
    expect(flat.reason).not.toContain('at this time of year');
  });

  it.each([undefined, { share: 0.8, kappa: 4, peak: PEAK.may }])('has none where a hidden failure costs nothing (season: %o)', (season) => {
    const r = seasonal(season, { settings: { ...P, hiddenFailureCostPerDay: 0 }, currentRule: weeksRule(8) });
    expect(r.evidence.cheapestDays).toBeNull();
    expect(r).toMatchObject({ changed: true, weeks: 16, guard: 'loosen_limit' });
  });
});

describe('an inspection’s reason', () => {
  const DEAR = { ...P, inspectionCost: 200 };
  const CLEAR = 'clear looks would lengthen it again';
  type Row = [name: string, looks: [number, string][], weeks: number, more: Partial<InspectionRevisionInput>, expected: RegExp];
  it.each<Row>([
    ['a contract', [[120, 'slow']], 30, { bounds: { maxWeeks: 2, maxReason: 'contract' } }, /^Drain slow on 6 May 2025; the contract asks for no longer than 2 weeks, so looking at it moves from 30 weeks to 2; clear/],
    ['a warranty of a week', [[120, 'slow']], 30, { bounds: { maxWeeks: 1, maxReason: 'warranty' } }, /^Drain slow on 6 May 2025; the warranty asks for no longer than 1 week, so/],
    ['the shop’s longest: what is expected', [[120, 'slow']], 30, { settings: { ...P, maxWeeks: { ...P.maxWeeks, drain_inspection: 2 } } }, /^Drain slow on 6 May 2025; trouble is expected about every \d+ months, so looking at it moves from 30 weeks to 2/],
    ['slow, not bad', [[120, 'slow']], 30, {}, new RegExp(`^Drain slow on 6 May 2025; trouble is expected about every \\d+ months, so looking at it moves from 30 weeks to \\d+; ${CLEAR}\\.$`)],
    ['the worst look of its day', [[120, 'runs'], [120, 'slow'], [120, 'runs']], 30, {}, /^Drain slow on 6 May 2025; trouble/],
    ['clean looks, longer', [[40, 'runs'], [80, 'runs'], [120, 'runs']], 4, { settings: DEAR }, /^3 clean looks in a row; trouble is expected about every .*, so looking at it moves from 4 weeks to 8; a worse find would shorten it again\.$/],
    ['clean looks since a bad one', [[40, 'blocked'], [80, 'runs'], [120, 'runs']], 2, { settings: DEAR }, /^2 clean looks in a row; trouble/],
    ['clean, but others of its kind taught otherwise', [[120, 'runs']], 40, {}, /^Clean at the last look, but the drain of a walk-in freezer is expected to give trouble about every .*, and unseen that costs more than looking, so looking at it moves from 40 weeks to/],
    ['frozen', [[120, 'frozen']], 30, {}, /^Drain found frozen on 6 May 2025; this walk-in freezer is now expected to do so about every /],
  ])('%s', (_, looks, weeks, more, expected) => {
    expect(revise(drains(...looks), weeks, more).reason).toMatch(expected);
  }); // prettier-ignore

  it('says an ice machine as one would', () => {
    const looks = drains([120, 'runs']);
    const r = revise(looks, 60, { posterior: failurePosterior({ aspect: 'drain', kind: 'ice_machine' }, START, looks) });
    expect(r.reason).toContain('the drain of an ice machine is expected');
  });
});

describe('which looks count', () => {
  const BLOCKED = drains([40, 'runs'], [80, 'blocked'], [120, 'runs']);
  const day = (n: number) => addDays(START, n);

  it.each([
    ['never revised: the newest alone', null, false],
    ['all since the last revision', day(60), true],
    ['not the day of that revision', day(80), false],
  ])('as bad: %s', (_, lastRevisedOn, severe) => {
    expect(revise(BLOCKED, 13, { lastRevisedOn }).severe).toBe(severe);
  });

  it.each([
    [[], 3],
    [[50], 2],
    [[80], 1],
    [[100, 50], 1],
    [[50, 100], 1],
    [[120], 0],
    [[130], 0],
  ])('as clean: those after what else failed on days %o', (broken, cleanRunning) => {
    const looks = drains([40, 'runs'], [80, 'runs'], [120, 'runs']);
    const r = revise(looks, 8, { broken: broken.map((n) => ({ on: day(n), what: 'Fan failed' })) });
    expect(r.evidence.cleanRunning).toBe(cleanRunning);
  });

  it('keeps the four newest with the reason, the newest first', () => {
    const looks = drains([80, 'runs'], [10, 'slow'], [50, 'runs'], [120, 'runs'], [30, 'runs']);
    expect(revise(looks, 8).evidence.looks.map((l) => l.on)).toEqual([120, 80, 50, 30].map(day));
  });
});
