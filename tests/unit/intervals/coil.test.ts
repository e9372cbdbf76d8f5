import { describe, expect, it } from 'vitest';
import { addDays, weekdayOf, weeksRule } from '@/lib/core/calendar';
import { DEFAULT_HYPER as H, kitchenWord, posterior } from '@/lib/core/fouling';
import { coilFindings, DEFAULT_POLICY as P, initialCoilWeeks } from '@/lib/core/intervals';
import { COIL, historyOf, revised, START, visit } from './support';

const FORTNIGHT = { settings: { ...P, minWeeks: 2, minWeeksUnlessSevere: 2 } };

describe('a packed coil', () => {
  const story = [visit(84, 'furred'), visit(84, 'matted'), visit(84, 'packed')];
  const r = revised(story, 12);

  it('tightens at once, brings somebody back, and says why in one sentence', () => {
    expect(r).toMatchObject({ changed: true, fromWeeks: 12, severe: true, returnVisitWithinDays: 7 });
    expect(r.weeks).toBeLessThan(9);
    expect(r.reason).toMatch(
      /^Packed at 84 days; coils beside fryers usually reach that in 120, so cleaning moves from 12 weeks to \d; clear looks would lengthen it again\.$/,
    );
    expect(r.dueOn).toBe(addDays(START, 3 * 84 + 7 * r.weeks));
    expect(r.modelVersion).toBe(H.modelVersion);
  });

  it('says “here” only where the kitchen’s other units have had their say', () => {
    const { last, ...history } = historyOf(story);
    const exposure = { placement: 'fryer', kitchenId: 'k' } as const;
    const heard = posterior(history, exposure, H, kitchenWord([posterior(history, exposure, H)]));
    expect(revised(story, 12, { posterior: heard, lastDoneOn: last }).reason).toMatch(
      /coils beside fryers here usually reach that in \d+,/,
    );
    expect(r.reason).not.toContain('here usually');
  });

  it('counts again from the visit on the preferred weekday', () => {
    const onTuesday = revised(story, 12, { preferredWeekday: 1 });
    expect(onTuesday.rule).toBe(`FREQ=WEEKLY;INTERVAL=${r.weeks};BYDAY=TU`);
    expect(weekdayOf(onTuesday.dueOn)).toBe(1);
  });

  it('at the shortest interval changes nothing but still brings somebody back', () => {
    const shortest = revised([visit(14, 'packed')], 2, FORTNIGHT);
    expect(shortest).toMatchObject({ changed: false, weeks: 2, guard: 'minimum', returnVisitWithinDays: 7 });
  });

  it('a clean look soon after a packed one proves nothing', () => {
    const again = revised([visit(62, 'packed'), visit(7, 'bare')], 6);
    expect(again.evidence.cleanRunning).toBe(0);
    expect(again.weeks).toBeLessThanOrEqual(6);
  });
});

describe('a matted coil that moves nothing', () => {
  it('is told why: what the interval bears by the evidence, or that it is the shortest', () => {
    const slow = { placement: 'back_of_house' } as const;
    const long = [visit(154, 'furred'), visit(154, 'matted'), visit(154, 'matted')];
    const found = Array.from({ length: 40 }, (_, i) => i + 3).map((weeks) => revised(long, weeks, slow));
    const kept = found.filter((r) => !r.changed);
    expect(kept.length).toBeGreaterThan(0);
    for (const r of kept) expect(r.stays).toMatch(/^Matted at 154 days .*so cleaning stays at every \d+ weeks\.$/);
    for (const r of found.filter((one) => one.changed)) expect(r.stays).toBeUndefined();
    expect(revised([visit(14, 'matted')], 2, FORTNIGHT).stays).toBe(
      'Matted at 14 days; the shop goes no shorter than that, so cleaning stays at every 2 weeks.',
    );
    // Nothing to explain where the coil was open, or where a lock keeps the rule and says so itself.
    expect(revised([visit(84, 'filmed')], 12, slow).stays).toBeUndefined();
    expect(revised(long, 40, { ...slow, locked: true }).stays).toBeUndefined();
  });
});

describe('a new unit', () => {
  it('found packed at once is taken at its word', () => {
    const r = revised([visit(62, 'packed')], 12);
    expect(r.weeks).toBeLessThanOrEqual(6);
    expect(r.reason).toMatch(/^Packed at 62 days; coils beside fryers usually reach that in 120, so cleaning moves from 12 weeks to \d; /);
  });
});

describe('a high-pressure trip', () => {
  it('of a fouled coil tightens', () => {
    const r = revised([visit(80, 'matted', { trip: true })], 30, { placement: 'line' });
    expect(r).toMatchObject({ severe: true, returnVisitWithinDays: 7 });
    expect(r.weeks).toBeLessThan(30);
    expect(r.reason).toMatch(/^Tripped on high pressure 80 days after cleaning, so cleaning moves from 30 weeks to \d+; /);
  });

  it('with a bare coil, or with another cause found, is not fouling', () => {
    const quiet = revised([visit(90, 'bare')], 13, { placement: 'bar' });
    const bare = revised([visit(90, 'bare', { trip: true })], 13, { placement: 'bar' });
    expect(bare.severe).toBe(false);
    expect(bare.weeks).toBe(quiet.weeks);
    const { last, ...history } = historyOf([visit(90, 'furred')]);
    const events = [...history.events, { kind: 'trip', on: last, cause: 'fan' } as const];
    expect(revised([visit(90, 'furred')], 13, { placement: 'bar', history: { ...history, events } }).severe).toBe(false);
  });
});

describe('clean findings', () => {
  const slow = { placement: 'back_of_house' } as const;

  it('loosen by what they are worth, twice as long at most, and not at all after a matted one', () => {
    const r = revised([visit(84, 'bare'), visit(85, 'filmed')], 12, slow);
    expect(r.changed).toBe(true);
    expect(r.weeks).toBeGreaterThan(12);
    expect(r.weeks).toBeLessThanOrEqual(24);
    expect(r.reason).toMatch(/^Filmed at 85 days; .*, so cleaning moves from 12 weeks to \d+; .*\.$/);
    expect(revised([visit(84, 'filmed'), visit(84, 'matted')], 12, slow).weeks).toBeLessThanOrEqual(12);
  });

  it('never go past the shop, the warranty or the contract', () => {
    const clean = [visit(84, 'bare'), visit(84, 'bare')];
    expect(revised(clean, 10, { ...slow, bounds: { maxWeeks: 12, maxReason: 'warranty' } })).toMatchObject({
      weeks: 12,
      guard: 'warranty',
      reason: expect.stringContaining('the warranty asks for no longer than 12 weeks'),
    });
    expect(revised(clean, 13, { ...slow, bounds: { maxWeeks: 13, maxReason: 'contract' } })).toMatchObject({
      changed: false,
      guard: 'contract',
    });
    expect(revised(clean, 12, { ...slow, settings: { ...P, maxWeeks: { ...P.maxWeeks, coil_cleaning: 14 } } })).toMatchObject({
      weeks: 14,
      guard: 'maximum',
    });
  });

  it('wait as many times as the owner asks', () => {
    const settings = { ...P, cleanFindings: 2, loosenFactor: 1.25 };
    expect(revised([visit(84, 'filmed')], 12, { ...slow, settings })).toMatchObject({ changed: false, guard: 'needs_clean_findings' });
    expect(revised([visit(84, 'bare'), visit(85, 'filmed')], 12, { ...slow, settings })).toMatchObject({
      weeks: 15,
      guard: 'loosen_limit',
    });
    const short = Array.from({ length: 4 }, () => visit(21, 'bare'));
    expect(revised(short.slice(0, 3), 3, { ...slow, settings })).toMatchObject({ changed: false, guard: 'loosen_step_below_week' });
    expect(revised(short, 3, { ...slow, settings })).toMatchObject({ changed: true, weeks: 4 });
  });

  it('undo one misread “packed” of a slow coil within two clear looks', () => {
    const bar = { placement: 'bar' } as const;
    const clear = [visit(168, 'filmed'), visit(168, 'filmed'), visit(168, 'filmed')];
    const before = revised(clear, 24, bar).weeks;
    const first = revised([...clear, visit(168, 'packed')], 24, bar);
    expect(first.weeks).toBeLessThanOrEqual(24);
    const again = revised([...clear, visit(168, 'packed'), visit(7 * first.weeks, 'filmed')], first.weeks, bar).weeks;
    const back = revised([...clear, visit(168, 'packed'), visit(7 * first.weeks, 'filmed'), visit(7 * again, 'filmed')], again, bar).weeks;
    expect(back).toBeGreaterThanOrEqual(Math.min(24, 0.9 * before));
  });

  it('find a step in the rate within two visits', () => {
    const slowLine = Array.from({ length: 6 }, () => visit(120, 'filmed'));
    const line = { placement: 'line' } as const;
    const before = revised(slowLine, 20, line).weeks;
    const one = revised([...slowLine, visit(120, 'packed')], 20, line).weeks;
    const two = revised([...slowLine, visit(120, 'packed'), visit(7 * one, 'matted')], one, line).weeks;
    expect(two).toBeLessThan(0.6 * before);
  });
});

describe('a fryer added, four times as fast from then on', () => {
  const grade = (y: number) => COIL[H.grades.thresholds.filter((c) => y > c).length] ?? 'packed';

  it.each([
    ['line', 0.0013, 120, 6],
    ['line', 0.0013, 120, 12],
    ['bar', 0.0009, 180, 6],
    ['bar', 0.0009, 180, 12],
  ] as const)('is found within two visits: %s, %d a day, met every %d days, %i times', (placement, rate, gap, times) => {
    /** Weeks asked for after the first and the second visit since. */
    const asked = (hyper: typeof H) => {
      const visits = Array.from({ length: times }, () => visit(gap, grade(rate * gap)));
      const weeksAfter = (days: number, weeks: number) => {
        visits.push(visit(days, grade(4 * rate * days)));
        const { last: _last, ...history } = historyOf(visits);
        return revised(visits, weeks, { placement, hyper, posterior: posterior(history, { placement, kitchenId: 'k' }, hyper) }).weeks;
      };
      const one = weeksAfter(gap, Math.floor(gap / 7));
      return weeksAfter(7 * one, one);
    };
    const packs = 0.6 / (4 * rate) / 7;
    expect(asked(H)).toBeLessThan(0.75 * packs);
    // Whoever believes that nothing ever changes takes it for luck, and is late again.
    expect(asked({ ...H, changePerYear: 1e-9 })).toBeGreaterThan(0.75 * packs);
  });
});

describe('a calendar rule of a contract', () => {
  const contract = { anchor: 'calendar', anchorDate: START, currentRule: 'FREQ=MONTHLY;INTERVAL=3' } as const;

  it('stays, and is called too slack when it is', () => {
    const r = revised([visit(90, 'packed')], 12, contract);
    expect(r).toMatchObject({
      changed: false,
      rule: contract.currentRule,
      guard: 'calendar',
      tooSlack: true,
      returnVisitWithinDays: 7,
      dueOn: '2025-07-06',
    });
    expect(r.wouldHave?.reason).toContain('Packed at 90 days');
  });

  it('is not called slack when it is not', () => {
    const r = revised([visit(90, 'bare'), visit(91, 'bare')], 12, { ...contract, placement: 'bar' });
    expect(r).toMatchObject({ changed: false, guard: 'calendar' });
    expect(r.tooSlack).toBeUndefined();
  });
});

describe('a coil that does not come clean', () => {
  it('is told apart from one that fouls fast', () => {
    const stubborn = Array.from({ length: 6 }, () => visit(45, 'matted', { after: 'furred' }));
    expect(revised(stubborn, 8).deepClean).toMatch(/^Even just cleaned, this condenser has lost \d+ % \(\d+–\d+\) of its heat transfer/);
    const fast = Array.from({ length: 6 }, () => visit(45, 'matted', { after: 'bare' }));
    expect(revised(fast, 8).deepClean).toBeUndefined();
  });

  it('is told apart from one that was badly cleaned once', () => {
    const well = Array.from({ length: 6 }, () => visit(45, 'matted', { after: 'bare' }));
    expect(revised([...well, visit(45, 'matted', { after: 'furred' })], 8).deepClean).toBeUndefined();
  });
});

describe('first rules and findings', () => {
  it('start short where coils foul fast, and never beyond the longest first interval', () => {
    const weeks = (placement: 'wok' | 'line' | 'bar') =>
      initialCoilWeeks(posterior({ startedOn: START, startedClean: true, events: [] }, { placement, kitchenId: 'k' }, H), P);
    expect(weeks('wok')).toBeLessThan(weeks('line'));
    expect(weeks('line')).toBeLessThan(weeks('bar'));
    expect(weeks('wok')).toBeGreaterThanOrEqual(P.minWeeksUnlessSevere);
    expect(weeks('bar')).toBeLessThanOrEqual(P.maxWeeksWithoutHistory);
  });

  it('lists coils as met, newest first, with their age', () => {
    const { last, ...history } = historyOf([visit(50, 'furred'), visit(40, 'bare', { after: 'bare' })]);
    expect(coilFindings(history)).toEqual([
      { on: last, grade: 'bare', daysSinceClean: 40 },
      { on: addDays(START, 50), grade: 'furred', daysSinceClean: 50 },
    ]);
  });

  it('needs a limit', () => {
    expect(() => revised([visit(50, 'bare')], 8, { limits: [] })).toThrow(/limit/);
    expect(weeksRule(8)).toBe('FREQ=WEEKLY;INTERVAL=8');
  });
});
