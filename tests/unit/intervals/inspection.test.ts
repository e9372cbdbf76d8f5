import { describe, expect, it } from 'vitest';
import { addDays, localDate, weeksRule } from '@/lib/core/calendar';
import { failurePosterior, type Inspection } from '@/lib/core/fouling';
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
