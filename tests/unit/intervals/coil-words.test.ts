import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { DEFAULT_POLICY as P } from '@/lib/core/intervals';
import { countClean, type CoilFinding } from '@/lib/core/intervals/coil-findings';
import { sentence, staysSentence, type CoilStory } from '@/lib/core/intervals/coil-words';
import type { Guard } from '@/lib/core/intervals/guards';

const MAY = localDate('2026-05-04');
const MATTED: CoilFinding = { on: MAY, grade: 'matted', daysSinceClean: 60 };
const PACKED: CoilFinding = { on: addDays(MAY, -70), grade: 'packed', daysSinceClean: 84 };
const BARE: CoilFinding = { on: addDays(MAY, -85), grade: 'bare', daysSinceClean: 84 };
const LIMIT = { name: 'Heat rejection', lnK: -0.6 };
const cost = (weeks: number, rides = false) => ({
  weeks,
  costPerDay: 1,
  failure: 0,
  energyPerDay: 0,
  ...(rides ? { rides: true as const } : {}),
});

type Told = Partial<Omit<CoilStory, 'evidence' | 'goal'>> & {
  evidence?: Partial<CoilStory['evidence']>;
  goal?: Partial<CoilStory['goal']>;
};
const belief = { mean: 0, sd: 1, low: 0, high: 0 };

/** A fryer's coil found matted at 60 days, whose risk decides; and what is told otherwise. */
function story({ evidence, goal, ...more }: Told = {}): CoilStory {
  return {
    history: { startedOn: addDays(MAY, -60), startedClean: true, events: [] },
    exposure: { placement: 'fryer', kitchenId: 'k' },
    kitchenHeard: false,
    settings: P,
    currency: 'USD',
    packed: false,
    tripped: false,
    evidence: {
      findings: [MATTED], trips: [], cleanRunning: 0, riskDays: 70, riskLimit: LIMIT.name, cheapestWeeks: null, usualPackedDays: 120,
      rate: { ...belief }, lnK: { ...belief }, ...evidence,
    },
    goal: { riskDays: 70.4, riskLimit: LIMIT, risk: { of: 'limit', chance: 0.2 }, riskCost: 0, cost: null, curve: [], ...goal },
    ...more,
  }; // prettier-ignore
}

const SHORTER = ', so cleaning moves from 12 weeks to 6; clear looks would lengthen it again.';
const LONGER = ', so cleaning moves from 12 weeks to 18; a worse find would shorten it again.';

describe('why a rule for cleaning moves', () => {
  type Row = [name: string, told: Told, weeks: number, guard: Guard | null, expected: string];
  it.each<Row>([
    ['packed, though the newest look was milder', { packed: true, evidence: { findings: [MATTED, PACKED] } }, 6, 'severe', `Packed at 84 days; coils beside fryers usually reach that in 120${SHORTER}`],
    ['packed, by what this kitchen taught', { packed: true, kitchenHeard: true, exposure: { placement: 'bar', kitchenId: 'k' }, evidence: { findings: [PACKED] } }, 6, 'severe', `Packed at 84 days; coils at bars here usually reach that in 120${SHORTER}`],
    ['packed, last cleaning unknown', { packed: true, evidence: { findings: [{ ...PACKED, on: MAY, daysSinceClean: null }] } }, 6, 'severe', `Packed on 4 May 2026; coils beside fryers usually reach that in 120${SHORTER}`],
    ['packed after the cleaning alone', { packed: true, evidence: { findings: [] } }, 6, 'severe', `Packed; coils beside fryers usually reach that in 120${SHORTER}`],
    ['packed and tripped: the coil is what was seen', { packed: true, tripped: true, evidence: { findings: [PACKED], trips: [MAY] } }, 6, 'severe', `Packed at 84 days; coils beside fryers usually reach that in 120${SHORTER}`],
    ['tripped', { tripped: true, evidence: { trips: [MAY, PACKED.on] } }, 6, 'severe', `Tripped on high pressure 60 days after cleaning${SHORTER}`],
    ['tripped, last cleaning unknown', { tripped: true, evidence: { trips: [MAY] }, history: { startedOn: PACKED.on, startedClean: false, events: [] } }, 6, 'severe', `Tripped on high pressure on 4 May 2026${SHORTER}`],
    ['the limit’s risk', {}, 6, null, `Matted at 60 days; heat rejection has a one in five chance of passing its limit by day 70${SHORTER}`],
    ['the risk of a packed coil', { goal: { risk: { of: 'packed', chance: 0.04 } } }, 6, null, `Matted at 60 days; the coil has a 4 % chance of being packed by day 70${SHORTER}`],
    ['the risk of a packed coil of half a percent more than two', { goal: { risk: { of: 'packed', chance: 0.025 } } }, 6, null, `Matted at 60 days; the coil has a one in forty chance of being packed by day 70${SHORTER}`],
    ['a risk that costs', { goal: { riskCost: 12.4 } }, 6, null, `Matted at 60 days; heat rejection has a one in five chance of passing its limit by day 70, and keeping to that costs about 12 USD more a cycle than cost alone would${SHORTER}`],
    ['a packed coil’s that costs', { currency: 'EUR', goal: { riskCost: 1, risk: { of: 'packed', chance: 0.1 } } }, 6, null, `Matted at 60 days; the coil has a one in ten chance of being packed by day 70, and keeping to that costs about 1 EUR more a cycle than cost alone would${SHORTER}`],
    ['a risk that costs less than a coin', { goal: { riskCost: 0.99 } }, 6, null, `Matted at 60 days; heat rejection has a one in five chance of passing its limit by day 70${SHORTER}`],
    ['cost, sooner than risk', { goal: { cost: cost(6) } }, 6, null, `Matted at 60 days; counting energy, breakdowns and comebacks, cleaning every 6 weeks costs least${SHORTER}`],
    ['cost, and visits that come late', { goal: { cost: cost(7) } }, 6, null, `Matted at 60 days; counting energy, breakdowns and comebacks, cleaning every 7 weeks costs least, and visits come about 4 days late${SHORTER}`],
    ['cost, and something else that shortens', { goal: { cost: cost(9) } }, 6, null, `Matted at 60 days; counting energy, breakdowns and comebacks, cleaning every 9 weeks costs least${SHORTER}`],
    ['cost, on the day of the risk', { goal: { riskDays: 70, cost: cost(10) } }, 6, null, `Matted at 60 days; counting energy, breakdowns and comebacks, cleaning every 10 weeks costs least${SHORTER}`],
    ['risk, a day sooner than cost', { goal: { riskDays: 69.9, cost: cost(10) } }, 6, null, `Matted at 60 days; heat rejection has a one in five chance of passing its limit by day 70${SHORTER}`],
    ['cost with a shared trip', { goal: { cost: cost(1, true) } }, 6, null, `Matted at 60 days; counting energy, breakdowns and comebacks, and that somebody comes that week anyway, cleaning every week costs least${SHORTER}`],
    ['readings alone', { evidence: { findings: [] } }, 6, null, `By its readings; heat rejection has a one in five chance of passing its limit by day 70${SHORTER}`],
    ['no risk within sight', { evidence: { findings: [BARE], riskDays: null } }, 18, null, `Bare at 84 days; heat rejection is not expected to reach its limit${LONGER}`],
    ['as many clean finds as the shop asks for, the oldest first', { settings: { ...P, cleanFindings: 2 }, evidence: { findings: [{ on: MAY, grade: 'filmed', daysSinceClean: 85 }, BARE, PACKED] } }, 18, null, `Bare at 84 days and filmed at 85; heat rejection has a one in five chance of passing its limit by day 70${LONGER}`],
    ['a day is a day', { settings: { ...P, cleanFindings: 2 }, evidence: { findings: [{ ...BARE, on: MAY, daysSinceClean: 1 }, { ...BARE, daysSinceClean: 1 }] } }, 18, null, `Bare at 1 day and bare at 1; heat rejection has a one in five chance of passing its limit by day 70${LONGER}`],
    ['the contract', { evidence: { findings: [BARE] } }, 18, 'contract', `Bare at 84 days; the contract asks for no longer than 18 weeks${LONGER}`],
    ['the shop’s longest', { evidence: { findings: [BARE] } }, 18, 'maximum', `Bare at 84 days; the shop goes no longer than 18 weeks${LONGER}`],
    ['a warranty of a week', {}, 1, 'warranty', 'Matted at 60 days; the warranty asks for no longer than a week, so cleaning moves from 12 weeks to 1; clear looks would lengthen it again.'],
  ])('%s', (_, told, weeks, guard, expected) => {
    expect(sentence(story(told), 12, { weeks, guard })).toBe(expected);
  }); // prettier-ignore
});

describe('why a rule for cleaning stays', () => {
  const BEARS =
    'Matted at 60 days is what this interval reckons with: heat rejection has a one in five chance of passing its limit by day 70';
  type Row = [name: string, told: Told, weeks: number, guard: Guard | null, expected: string];
  it.each<Row>([
    ['the shop’s shortest', {}, 2, 'minimum', 'Matted at 60 days; the shop goes no shorter than that, so cleaning stays at every 2 weeks.'],
    ['a week', {}, 1, 'minimum', 'Matted at 60 days; the shop goes no shorter than that, so cleaning stays at every week.'],
    ['a small difference', {}, 30, 'dead_band', `${BEARS}, and what differs by less than 3 weeks is left alone, so cleaning stays at every 30 weeks.`],
    ['a difference below a week', {}, 4, 'dead_band', `${BEARS}, and what differs by less than a week is left alone, so cleaning stays at every 4 weeks.`],
    ['longer by the evidence, not by a clean find', {}, 9, 'needs_clean_findings', `${BEARS}; longer it gets only after a clean find, so cleaning stays at every 9 weeks.`],
    ['cost would have it sooner', { goal: { cost: cost(11) } }, 12, null, `${BEARS}, so cleaning stays at every 12 weeks.`],
    ['cost asks for no sooner', { goal: { cost: cost(12) } }, 12, null, `${BEARS}, which is no sooner than now, so cleaning stays at every 12 weeks.`],
    ['no cost asks for anything', {}, 12, null, `${BEARS}, which is no sooner than now, so cleaning stays at every 12 weeks.`],
  ])('%s', (_, told, weeks, guard, expected) => {
    expect(staysSentence(story(told), weeks, guard)).toBe(expected);
  }); // prettier-ignore
});

describe('clean finds running', () => {
  const found = (...list: [before: number, grade: CoilFinding['grade'], days: number | null][]): CoilFinding[] =>
    list.map(([before, grade, daysSinceClean]) => ({ on: addDays(MAY, -before), grade, daysSinceClean }));
  const TWO = found([0, 'bare', 60], [60, 'filmed', 60]);
  type Row = [name: string, findings: CoilFinding[], tripsBefore: number[], expected: number];
  it.each<Row>([
    ['none looked at', [], [], 0],
    ['two', TWO, [], 2],
    ['up to the worst grade that counts', found([0, 'furred', 60]), [], 1],
    ['not a worse one, nor what lies before it', found([0, 'bare', 60], [60, 'matted', 60], [120, 'bare', 60]), [], 1],
    ['not one too soon after a cleaning, which breaks no run', found([0, 'bare', 60], [10, 'bare', 10], [60, 'bare', 60]), [], 2],
    ['just late enough', found([0, 'bare', 42]), [], 1],
    ['just too soon', found([0, 'bare', 41]), [], 0],
    ['one whose cleaning nobody knows', found([0, 'bare', null]), [], 1],
    ['a trip on the newest day leaves none', TWO, [0], 0],
    ['a trip after the newest day leaves none', TWO, [-5], 0],
    ['a trip between spoils the older', TWO, [30], 1],
    ['a trip on the older’s day spoils it', TWO, [60], 1],
    ['a trip before both spoils neither', TWO, [61], 2],
  ])('%s', (_, findings, tripsBefore, expected) => {
    const trips = tripsBefore.map((n) => addDays(MAY, -n));
    expect(countClean(findings, trips, 'furred', 42)).toBe(expected);
  });
});
