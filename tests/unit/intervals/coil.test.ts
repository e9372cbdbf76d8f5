import { describe, expect, it } from 'vitest';
import { addDays, weeksRule } from '@/lib/core/calendar';
import { DEFAULT_HYPER as H, posterior } from '@/lib/core/fouling';
import { coilFindings, DEFAULT_POLICY as P, initialCoilWeeks } from '@/lib/core/intervals';
import { historyOf, revised, START, visit } from './support';

describe('a packed coil', () => {
  const story = [visit(84, 'furred'), visit(84, 'matted'), visit(84, 'packed')];
  const r = revised(story, 12);

  it('halves the interval at least, brings somebody back, and says why in one sentence', () => {
    expect(r).toMatchObject({
      changed: true,
      fromWeeks: 12,
      weeks: 6,
      rule: 'FREQ=WEEKLY;INTERVAL=6',
      guard: 'halved',
      returnVisitWithinDays: 7,
    });
    expect(r.reason).toBe('Packed at 84 days; coils beside fryers usually reach that in 120, so cleaning moves from 12 weeks to 6.');
    expect(r.dueOn).toBe(addDays(START, 3 * 84 + 42));
    expect(r.modelVersion).toBe(H.modelVersion);
  });

  it('counts again from the visit on the preferred weekday', () => {
    const onTuesday = revised(story, 12, { preferredWeekday: 1 });
    expect(onTuesday.rule).toBe('FREQ=WEEKLY;INTERVAL=6;BYDAY=TU');
    expect(onTuesday.dueOn).toBe('2025-10-21');
  });

  it('at the shortest interval changes nothing but still brings somebody back', () => {
    const shortest = revised([visit(14, 'packed')], 2);
    expect(shortest).toMatchObject({ changed: false, weeks: 2, guard: 'minimum', returnVisitWithinDays: 7 });
  });

  it('found again on a return visit halves once more, but a clean look so soon proves nothing', () => {
    const again = revised([visit(62, 'packed'), visit(7, 'bare')], 6);
    expect(again.evidence.cleanRunning).toBe(0);
    expect(again.weeks).toBeLessThanOrEqual(6);
  });
});

describe('a new unit', () => {
  it('found packed at once is taken at its word', () => {
    const r = revised([visit(62, 'packed')], 12);
    expect(r.weeks).toBeLessThanOrEqual(6);
    expect(r.reason).toMatch(/^Packed at 62 days; coils beside fryers usually reach that in 120, so cleaning moves from 12 weeks to \d\.$/);
  });
});

describe('a high-pressure trip', () => {
  it('does the same', () => {
    const r = revised([visit(80, 'furred', { trip: true })], 12, { placement: 'line' });
    expect(r).toMatchObject({ weeks: 6, guard: 'halved', returnVisitWithinDays: 7 });
    expect(r.reason).toBe('Tripped on high pressure 80 days after cleaning, so cleaning moves from 12 weeks to 6.');
  });
});

describe('clean findings', () => {
  const slow = { placement: 'back_of_house' } as const;

  it('loosen by a quarter, but only two running', () => {
    expect(revised([visit(84, 'filmed')], 12, slow)).toMatchObject({ changed: false, guard: 'needs_clean_findings' });
    const r = revised([visit(84, 'bare'), visit(85, 'filmed')], 12, slow);
    expect(r).toMatchObject({ changed: true, weeks: 15, guard: 'loosen_limit' });
    expect(r.reason).toMatch(/^Bare at 84 days and filmed at 85; .*, so cleaning moves from 12 weeks to 15\.$/);
    expect(revised([visit(84, 'filmed'), visit(84, 'matted')], 12, slow)).toMatchObject({
      changed: false,
      guard: 'needs_clean_findings',
    });
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

  it('from less than four weeks need twice as many before a whole week is earned', () => {
    const clean = Array.from({ length: 4 }, () => visit(21, 'bare'));
    expect(revised(clean.slice(0, 3), 3, slow)).toMatchObject({ changed: false, guard: 'loosen_step_below_week' });
    expect(revised(clean, 3, slow)).toMatchObject({ changed: true, weeks: 4 });
  });

  it('are spoiled by a trip between them', () => {
    const r = revised([visit(84, 'bare', { trip: true }), visit(84, 'bare')], 12, slow);
    expect(r.evidence.cleanRunning).toBe(1);
    expect(r.changed).toBe(false);
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
    expect(revised(stubborn, 8).deepClean).toMatch(/^Even just cleaned, this condenser has lost \d+ % \(\d+–\d+\) of its conductance/);
    const fast = Array.from({ length: 6 }, () => visit(45, 'matted', { after: 'bare' }));
    expect(revised(fast, 8).deepClean).toBeUndefined();
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
