import { describe, expect, it } from 'vitest';
import { cleanPrior, compareBeforeAfter, cyclePoints, estimate, type CondenserUnit, type Figure, type Reading } from '@/lib/core/condenser';
import { RandomStream } from '@/lib/core/numerics/random';
import { REFRIGERANT_IDS } from '@/lib/core/refrigerants';
import { CONDENSER_KINDS, PLACEMENTS, UNIT_KINDS } from '@/lib/core/equipment/build';
import { PSI } from '../../support/condenser';

/** Anything a person could type, from sound to absurd. */
function entry(random: RandomStream, usual: number, spread: number): number | undefined {
  const kind = random.next();
  if (kind < 0.25) return undefined;
  if (kind < 0.93) return random.normal(usual, spread);
  return random.pick([0, -1, 999, 99999, NaN, Infinity, -40, 1e-9, usual * 10]);
}

function anything(random: RandomStream): { unit: CondenserUnit; reading: Reading } {
  const low = random.chance(0.4);
  const unit: CondenserUnit = {
    refrigerant: random.pick(REFRIGERANT_IDS),
    kind: random.pick(UNIT_KINDS),
    application: low ? 'low' : 'medium',
    expansion: random.pick(['capillary', 'valve']),
    circuitAccess: random.pick(['sealed', 'ports']),
    condenserKind: random.pick(CONDENSER_KINDS),
    placement: random.pick(PLACEMENTS),
    boxSetPointK: random.normal(low ? 254 : 276, 5),
    altitudeM: random.between(0, 3000),
    cutoutPaGauge: random.chance(0.5) ? random.between(100, 700) * PSI : undefined,
    hasHeadControl: random.chance(0.3) ? undefined : random.chance(0.5),
    nominalCoolingW: random.chance(0.3) ? random.between(50, 20_000) : undefined,
  };
  const reading: Reading = {
    at: random.whole(0, 2e9),
    phase: random.pick(['before', 'after', 'log']),
    headPaGauge: entry(random, 220 * PSI, 90 * PSI),
    condensingClampK: entry(random, 315, 15),
    airInK: entry(random, 302, 9),
    roomAirK: entry(random, 298, 9),
    suctionPaGauge: entry(random, 35 * PSI, 25 * PSI),
    liquidLineK: entry(random, 308, 9),
    suctionLineK: entry(random, 278, 12),
    dischargeLineK: entry(random, 350, 25),
    boxK: entry(random, low ? 254 : 276, 8),
    steadyMinutes: entry(random, 15, 8),
    offCyclePaGauge: entry(random, 90 * PSI, 40 * PSI),
    offCycleAirK: entry(random, 298, 5),
    coilGrade: random.chance(0.4) ? random.pick(['bare', 'filmed', 'furred', 'matted', 'packed']) : undefined,
    fanGrade: random.chance(0.4) ? random.pick(['sound', 'worn', 'failed']) : undefined,
    gauge: random.chance(0.5) ? { grade: random.pick(['2A', '1A', 'B', 'D']), spanPa: 500 * PSI } : undefined,
  };
  return { unit, reading };
}

function figuresIn(x: unknown, out: Figure[] = []): Figure[] {
  if (typeof x !== 'object' || x === null) return out;
  if ('level' in x) out.push(x as Figure);
  else Object.values(x).forEach((v) => figuresIn(v, out));
  return out;
}

function numbersIn(x: unknown, out: number[] = []): number[] {
  if (typeof x === 'number') out.push(x);
  else if (typeof x === 'object' && x !== null) Object.values(x).forEach((v) => numbersIn(v, out));
  return out;
}

const HANG_MS = 1_000;
/** What comes of it and in how many milliseconds; over the bound the least of five: a machine busy with other things does not fail, a search that does not end does. */
function timed<T>(work: () => T): { value: T; ms: number } {
  let start = performance.now();
  const value = work();
  let ms = performance.now() - start;
  for (let i = 0; i < 4 && !(ms < HANG_MS); i++) {
    start = performance.now();
    work();
    ms = Math.min(ms, performance.now() - start);
  }
  return { value, ms };
}

describe('4,000 readings of any kind', () => {
  it('never give NaN, a loss below zero beyond its band, or a hang', { timeout: 300_000 }, () => {
    const random = new RandomStream(99, 'anything');
    const seen = new Map<string, number>();
    let slowest = 0;
    for (let i = 0; i < 4_000; i++) {
      const { unit, reading } = anything(random);
      const conditions = {
        hotDayAirK: random.normal(310, 5),
        boxK: unit.boxSetPointK,
        energyPricePerKwh: 0.2,
        currency: 'USD',
      };
      const { value: e, ms } = timed(() => estimate(unit, reading, cleanPrior(unit), conditions));
      slowest = Math.max(slowest, ms);
      const label = e.status === 'ok' ? e.verdict : e.reason;
      seen.set(label, (seen.get(label) ?? 0) + 1);
      for (const n of numbersIn(e)) if (!Number.isFinite(n)) throw new Error(`${n} in ${JSON.stringify({ unit, reading, e })}`);
      for (const f of figuresIn(e)) if (!(f.lo <= f.value && f.value <= f.hi)) throw new Error(JSON.stringify({ unit, reading, f }));
      if (e.status === 'ok') {
        // Nothing is lost less than nothing: no negative loss, energy or money.
        for (const f of [e.conductanceLost, e.coolingLostHotDay, e.extraEnergyKwhPerDay, e.extraCostPerDay])
          if (f) expect(f.lo).toBeGreaterThanOrEqual(0);
        expect(e.conductanceLost.hi).toBeLessThan(1);
        expect(e.causes.reduce((s, c) => s + c.weight, 0)).toBeCloseTo(1, 9);
      }
    }
    expect(slowest).toBeLessThan(HANG_MS);
    // Sound readings are met as well as absurd ones: nothing passes by saying nothing.
    for (const label of ['clean_it', 'look_first', 'look_elsewhere', 'impossible_reading', 'not_steady', 'head_control'])
      expect(seen.get(label) ?? 0, label).toBeGreaterThan(0);
  });

  it('compare and draw without NaN too', { timeout: 120_000 }, () => {
    const random = new RandomStream(98, 'pairs');
    let compared = 0;
    let drawn = 0;
    for (let i = 0; i < 2_000; i++) {
      const { unit, reading } = anything(random);
      const later = { ...reading, at: reading.at + 1, airInK: (reading.airInK ?? 300) + 2 };
      const c = compareBeforeAfter(unit, reading, later);
      const points = cyclePoints(unit, reading);
      if (c.status === 'ok') compared++;
      if (points) drawn++;
      for (const n of [...numbersIn(c), ...numbersIn(points)]) expect(Number.isFinite(n)).toBe(true);
    }
    expect(compared).toBeGreaterThan(200);
    expect(drawn).toBeGreaterThan(200);
  });
});
