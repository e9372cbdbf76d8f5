import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { capitalRecovery, compareWays, unitWays, type Banded, type Prices, type WayInput } from '@/lib/core/choices';
import { VERDICT_WORDS, WAY_LABEL } from '@/lib/core/choices/unit-ways';
import { WAYS } from '@/lib/core/choices/compare';
import { facts, shop, typed } from '../../support/choices';

const sure = (value: number): Banded => ({ value, lo: value, hi: value });
const about = (value: number, share = 0.3): Banded => ({ value, lo: value / (1 + share), hi: value * (1 + share) });
const FREE: Prices = {
  energyPerKwh: sure(1),
  cleaning: sure(1),
  callOut: sure(1),
  refrigerantPerKg: sure(1),
  failure: sure(1),
  interest: 0,
};
const nothing = (over: Partial<WayInput> & Pick<WayInput, 'way'>): WayInput => ({
  price: null,
  years: sure(10),
  energyKwhPerYear: sure(0),
  cleaningsPerYear: sure(0),
  callOutsPerYear: sure(0),
  leakKgPerYear: sure(0),
  failuresPerYear: sure(0),
  ...over,
});
const costOf = (energyKwhPerYear: Banded) => {
  const [first] = compareWays([nothing({ way: 'go_on', energyKwhPerYear }), nothing({ way: 'repair', price: sure(9e9) })], FREE).ways;
  return first?.perYear ?? expect.fail('two ways');
};

describe('a price over the years it serves', () => {
  it('is paid back with its interest: the payments of all years are worth the price today', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 0.3, noNaN: true }), fc.integer({ min: 1, max: 40 }), (interest, years) => {
        const each = capitalRecovery(interest, years);
        const worth = Array.from({ length: years }, (_, k) => each / (1 + interest) ** (k + 1)).reduce((a, b) => a + b, 0);
        expect(worth).toBeCloseTo(1, 9);
      }),
    );
    for (const years of [0, -1, NaN]) expect(capitalRecovery(0.06, years)).toBe(Infinity);
    expect(capitalRecovery(0, -3)).toBe(Infinity);
  });
});

describe('one figure with its band', () => {
  // The lognormal of a band: sd of the logarithm ln(hi/lo)/(2 × 1.2816), mean value × exp(sd²/2).
  it('is drawn as wide as it says: four fifths of the draws lie in it, a tenth on either side', () => {
    for (const band of [about(1000, 0.3), about(40, 1)]) {
      const sd = Math.log(band.hi / band.lo) / (2 * 1.2816);
      const cost = costOf(band);
      expect(cost.value / (band.value * Math.exp((sd * sd) / 2))).toBeCloseTo(1, 1);
      expect(Math.log(cost.lo / band.lo)).toBeCloseTo(0, 0);
      expect(Math.log(cost.hi / cost.lo) / Math.log(band.hi / band.lo)).toBeGreaterThan(0.85);
      expect(Math.log(cost.hi / cost.lo) / Math.log(band.hi / band.lo)).toBeLessThan(1.15);
    }
  });

  it('that may be nothing is drawn about its value and never below nothing', () => {
    // Of a normal cut at nothing the mean is mΦ(m/s) + sφ(m/s) (Johnson, Kotz & Balakrishnan 1, 13.10): s = 100/2.5632 = 39.0.
    const maybe = costOf({ value: 50, lo: 0, hi: 100 });
    expect(maybe.value).toBeGreaterThan(47);
    expect(maybe.value).toBeLessThan(57);
    expect(maybe.lo).toBeGreaterThanOrEqual(0);
    expect([maybe.lo < 12, maybe.hi > 88]).toEqual([true, true]);
    const rarely = costOf({ value: 0, lo: 0, hi: 100 });
    expect(rarely.value).toBeGreaterThan(12);
    expect(rarely.value).toBeLessThan(19);
    expect(rarely.lo).toBe(0);
  });

  it('that is certain is itself, whatever else is drawn', () => {
    expect(costOf(sure(0))).toEqual({ value: 0, lo: 0, hi: 0 });
    const cost = costOf(sure(731));
    expect([cost.lo, cost.hi]).toEqual([731, 731]);
    expect(cost.value).toBeCloseTo(731, 9);
  });

  it('that is none is refused, in any place', () => {
    for (const bad of [
      { value: 1, lo: 2, hi: 3 },
      { value: 4, lo: 2, hi: 3 },
      { value: 1, lo: -1, hi: 3 },
      { value: NaN, lo: 1, hi: 3 },
    ]) {
      const keys = [
        'years',
        'energyKwhPerYear',
        'cleaningsPerYear',
        'callOutsPerYear',
        'leakKgPerYear',
        'failuresPerYear',
        'price',
      ] as const;
      for (const key of keys)
        expect(() => compareWays([nothing({ way: 'go_on' }), nothing({ way: 'repair', [key]: bad })], FREE), key).toThrow(
          `A band runs from low to high around its value: ${bad.lo}, ${bad.value}, ${bad.hi}`,
        );
      for (const key of ['energyPerKwh', 'cleaning', 'callOut', 'refrigerantPerKg', 'failure'] as const)
        expect(() => compareWays([nothing({ way: 'go_on' }), nothing({ way: 'repair' })], { ...FREE, [key]: bad }), key).toThrow(
          RangeError,
        );
    }
    expect(() => compareWays([], FREE)).toThrow(/two ways/);
  });
});

describe('ways beside each other', () => {
  const PRICES: Prices = { energyPerKwh: about(0.2, 0.4), cleaning: about(100), callOut: about(250), refrigerantPerKg: about(40), failure: about(2000, 0.6), interest: 0.05 }; // prettier-ignore
  const goOn = nothing({ way: 'go_on', energyKwhPerYear: about(4000), cleaningsPerYear: about(4), callOutsPerYear: about(1), leakKgPerYear: about(0.5), failuresPerYear: about(0.3) }); // prettier-ignore
  const repair = { ...goOn, way: 'repair', price: about(1200), years: about(6), energyKwhPerYear: about(3500), leakKgPerYear: sure(0), failuresPerYear: about(0.15) } as const; // prettier-ignore
  const replace = { ...repair, way: 'replace', price: about(7000), years: about(12), energyKwhPerYear: about(2500) } as const;
  const all = compareWays([goOn, repair, replace], PRICES);

  it('have parts that make their cost, each in its own price', () => {
    for (const { parts, perYear } of all.ways) {
      expect(Object.values(parts).reduce((a, b) => a + b, 0)).toBeCloseTo(perYear.value, 6);
      expect(perYear.lo).toBeLessThan(perYear.value);
      expect(perYear.hi).toBeGreaterThan(perYear.value);
    }
    const paid = { ...FREE, energyPerKwh: sure(2), cleaning: sure(3), callOut: sure(5), refrigerantPerKg: sure(7), failure: sure(11) };
    const one = nothing({ way: 'repair', price: sure(130), energyKwhPerYear: sure(17), cleaningsPerYear: sure(19), callOutsPerYear: sure(23), leakKgPerYear: sure(29), failuresPerYear: sure(31) }); // prettier-ignore
    const [, way] = compareWays([nothing({ way: 'go_on' }), one], paid).ways;
    const parts = { capital: 13, energy: 34, cleaning: 57, callOuts: 115, leaks: 203, failures: 341 };
    for (const [key, value] of Object.entries(parts)) expect(way?.parts[key as keyof typeof parts], key).toBeCloseTo(value, 9);
  });

  it('are one of them surely the cheapest, the best the one that costs least in the mean', () => {
    expect(all.ways.map((w) => w.way)).toEqual(['go_on', 'repair', 'replace']);
    expect(all.ways.reduce((sum, w) => sum + w.cheapest, 0)).toBeCloseTo(1, 9);
    const [least] = [...all.ways].sort((a, b) => a.perYear.value - b.perYear.value);
    expect([all.best, all.sure]).toEqual([least?.way, least?.cheapest]);
    expect(all.verdict).toBe(all.sure >= 0.85 ? 'clear' : all.sure >= 0.65 ? 'leaning' : 'cant_tell');
    // Whoever knew would not pay more than the best costs, nor less than nothing.
    expect(all.regretPerYear).toBeGreaterThan(0);
    expect(all.regretPerYear).toBeLessThan(all.ways[0]?.perYear.value ?? 0);
  });

  it('are told apart the surer the farther they are apart', () => {
    const verdicts = [0, 60, 160, 400, 900].map((more) => {
      const c = compareWays([goOn, { ...goOn, way: 'repair', price: sure(10 * more) }], { ...PRICES, interest: 0 });
      return [c.best, c.verdict, c.sure, c.regretPerYear] as const;
    });
    expect(verdicts.slice(1).map(([best]) => best)).toEqual(['go_on', 'go_on', 'go_on', 'go_on']);
    const [sureOf, regretOf] = [verdicts.map((v) => v[2]), verdicts.map((v) => v[3])];
    for (let i = 1; i < verdicts.length; i++) {
      expect(sureOf[i] ?? NaN).toBeGreaterThanOrEqual(sureOf[i - 1] ?? NaN);
      expect(regretOf[i] ?? NaN).toBeLessThanOrEqual(regretOf[i - 1] ?? NaN);
    }
    const words = verdicts.map((v) => v[1]);
    expect([words[0], words.includes('leaning'), words.at(-1)]).toEqual(['cant_tell', true, 'clear']);
  });

  it('rise and fall together with what they share: a dear kilowatt-hour makes no difference between two of one use', () => {
    const same = nothing({ way: 'go_on', energyKwhPerYear: sure(3000) });
    const c = compareWays([same, { ...same, way: 'repair', energyKwhPerYear: sure(3001) }], { ...FREE, energyPerKwh: about(0.2, 0.8) });
    expect([c.best, c.sure, c.verdict, c.regretPerYear]).toEqual(['go_on', 1, 'clear', 0]);
    // Their own bands overlap all but wholly.
    expect(c.ways[1]?.perYear.lo ?? NaN).toBeLessThan(c.ways[0]?.perYear.hi ?? NaN);
  });

  it('that cost the same: the first stands, and nothing is lost by it', () => {
    const c = compareWays([nothing({ way: 'go_on' }), nothing({ way: 'repair' }), nothing({ way: 'replace' })], FREE);
    expect(c).toMatchObject({ best: 'go_on', sure: 1, regretPerYear: 0 });
    expect(c.ways.map((w) => w.cheapest)).toEqual([1, 0, 0]);
  });

  it('have a price at which they would cost what the best of the others costs', () => {
    for (const [i, way] of [goOn, repair, replace].entries()) {
      const price = all.ways[i]?.breakEvenPrice;
      if (way.price === null) {
        expect(price).toBeNull();
        continue;
      }
      if (typeof price !== 'number') throw new Error('a price above nothing');
      const paid = compareWays(
        [goOn, repair, replace].map((w, k) => (k === i ? { ...w, price: sure(price) } : w)),
        PRICES,
      );
      const others = paid.ways.filter((_, k) => k !== i).map((w) => w.perYear.value);
      expect((paid.ways[i]?.perYear.value ?? NaN) / Math.min(...others)).toBeCloseTo(1, 9);
    }
    // None where running it alone costs more than another way does in all.
    const dear = { ...repair, energyKwhPerYear: about(90_000) };
    expect(compareWays([goOn, dear], PRICES).ways[1]?.breakEvenPrice).toBeNull();
    const even = { ...nothing({ way: 'repair', price: sure(5) }), energyKwhPerYear: sure(7) };
    expect(compareWays([nothing({ way: 'go_on', energyKwhPerYear: sure(7) }), even], FREE).ways[1]?.breakEvenPrice).toBeNull();
  });

  it('are answered alike each time', () => expect(compareWays([goOn, repair, replace], PRICES)).toEqual(all));
});

describe('the ways of a unit', () => {
  const of = (t: Partial<Parameters<typeof unitWays>[1]>, f: Partial<typeof facts> = {}) => unitWays({ ...facts, ...f }, { ...typed, ...t }, shop); // prettier-ignore
  const energy = (ways: WayInput[]) => Object.fromEntries(ways.map((w) => [w.way, w.energyKwhPerYear.value]));

  it('use what the unit uses clean, and what its deposit costs beside: a new one what a new one does', () => {
    expect(energy(of({}).ways)).toEqual({ go_on: 3900, repair: 3150, replace: 2550 });
    // What a new one uses is not said: as this one. What this one uses is not said: only the deposit is told apart.
    expect(energy(of({ newKwh: null }).ways)).toEqual({ go_on: 3900, repair: 3150, replace: 3150 });
    expect(energy(of({ useKwh: null }).ways)).toEqual({ go_on: 900, repair: 150, replace: 150 });
    expect(energy(of({}, { fouling: null }).ways)).toEqual({ go_on: 3000, repair: 3000, replace: 2400 });
  });

  it('serve so many years, a coil never longer than the unit around it', () => {
    const years = (t: Partial<typeof typed>) => of(t).ways.map((w) => [w.way, w.years.value]);
    expect(years({})).toEqual([['go_on', 6], ['repair', 6], ['replace', 12]]); // prettier-ignore
    expect(years({ coilYears: 4 })).toEqual([['go_on', 6], ['repair', 4], ['replace', 12]]); // prettier-ignore
  });

  it('are paid for as typed, going on with nothing; a leak goes on only where nothing is made tight', () => {
    const { ways, prices } = of({});
    expect(ways.map((w) => w.price?.value ?? null)).toEqual([null, 900, 6000]);
    expect(ways.map((w) => w.leakKgPerYear.value)).toEqual([0.4, 0, 0]);
    expect(of({}, { leakKgPerYear: 0 }).ways[0]?.leakKgPerYear).toEqual({ value: 0, lo: 0, hi: 0 });
    expect(ways.map((w) => w.cleaningsPerYear.value)).toEqual(Array(3).fill(ways[0]?.cleaningsPerYear.value));
    expect(prices).toMatchObject({ energyPerKwh: { value: 0.18 }, cleaning: { value: 110 }, callOut: { value: 260 }, refrigerantPerKg: { value: 45 }, failure: { value: 1800 }, interest: 0.06 }); // prettier-ignore
  });

  it('made good or new fail as the shop’s units do, going on as this one did', () => {
    const [goOn, repair, replace] = of({}).ways;
    // Six and four in three years beside a tenth a year.
    expect(goOn?.callOutsPerYear.value).toBeGreaterThan(4 * (repair?.callOutsPerYear.value ?? NaN));
    expect(goOn?.failuresPerYear.value).toBeGreaterThan(3 * (repair?.failuresPerYear.value ?? NaN));
    expect(repair?.callOutsPerYear).toEqual(replace?.callOutsPerYear);
    // (60 + ½) / 600, of which the median lies a little below the mean.
    expect(repair?.failuresPerYear.value).toBeCloseTo(0.1, 2);
    expect((repair?.failuresPerYear.hi ?? NaN) / (repair?.failuresPerYear.value ?? NaN)).toBeCloseTo(1.6, 9);
  });

  it('have a word each, and each verdict one', () => {
    expect(WAYS.map((w) => WAY_LABEL[w])).toEqual(['Go on as it is', 'New coil, circuit made tight', 'New unit']);
    expect(new Set(Object.values(VERDICT_WORDS)).size).toBe(3);
    for (const words of Object.values(VERDICT_WORDS)) expect(words).toMatch(/^[a-z].{3,}/);
  });
});
