import { describe, expect, it } from 'vitest';
import { cleaningSentence, cleaningSources, cleaningWorth, type DueCoil } from '@/lib/core/evidence';

/** A limit nobody reaches, and one that is passed for certain. */
const NEVER = { failureChancePerDay: 0.05, failureLimit: { name: 'trip', lnK: -50 } };
const PAST = { failureChancePerDay: 0.01, failureLimit: { name: 'trip', lnK: -0.3, sd: 0.001 } };
const PRICES = { cleaningCost: 60, failureCost: 1000 };

/** 1 kWh a day for each unit of deposit; a deposit of 1, well known, that grows no more; cleaned for 70 days. */
const coil = (over: Partial<DueCoil> = {}): DueCoil => ({
  ratePerDay: 0,
  rateSdPerDay: 0,
  lnK: -1,
  lnKSd: 0,
  days: 0,
  own: { limits: [], failureLimit: null, passedClean: [], kwhPerDay: Array.from({ length: 24 }, (_, i) => i / 10) },
  dueInDays: 0,
  lastsDays: 70,
  pricePerKwh: 0.5,
  ...over,
});

describe('what cleaning is worth', () => {
  it('is the energy of what comes off, over the days until it is due again', () => {
    // By hand: a cleaning takes 0.95 of a deposit of 1 off, 1 kWh a day each, 70 days at 0.5: 33.25. What is left is
    // known to 0.05, so the table's end at nothing is a little in the way.
    const worth = cleaningWorth([coil()], PRICES, NEVER);
    expect(worth?.energy.value).toBeCloseTo(33.25, 0);
    expect(worth?.breakdowns.value).toBe(0);
    expect(worth).toMatchObject({ coils: 1, price: 60, verdict: 'costs', withoutEnergy: 0 });
    expect(cleaningWorth([coil({ pricePerKwh: 5 })], PRICES, NEVER)?.verdict).toBe('pays');
  });

  it('is a breakdown that does not come: one in a hundred hot days over seventy, by the exponential law', () => {
    const worth = cleaningWorth([coil({ own: null })], PRICES, PAST);
    expect(worth?.breakdowns.value).toBeCloseTo(1 - Math.exp(-0.7), 6);
    expect(worth?.avoided.value).toBeCloseTo(1000 * (1 - Math.exp(-0.7)), 3);
    expect(worth).toMatchObject({ withoutEnergy: 1, energy: { value: 0 } });
  });

  it('grows with a date that is further off only as far as the coil fouls until then', () => {
    const value = (over: Partial<DueCoil>) => cleaningWorth([coil(over)], PRICES, NEVER)?.energy.value ?? NaN;
    expect(value({ dueInDays: 30 })).toBeCloseTo(value({}), 6);
    // Grown by 0.3 to 1.3 on its date.
    expect(value({ dueInDays: 30, ratePerDay: 0.01 })).toBeCloseTo((value({}) * 1.3) / 1, 0);
  });

  it('has a wider band where less is known, and is nothing where no coil is due', () => {
    const width = (over: Partial<DueCoil>) => {
      const saved = cleaningWorth([coil(over)], PRICES, NEVER)?.saved;
      return saved ? saved.hi - saved.lo : NaN;
    };
    expect(width({ lnKSd: 0.4 })).toBeGreaterThan(width({}));
    expect(cleaningWorth([], PRICES, NEVER)).toBeNull();
    // A hundred coils alike: what is each one's own averages out, what is common does not.
    const many = cleaningWorth(
      Array.from({ length: 100 }, () => coil()),
      PRICES,
      NEVER,
    );
    const share = (w: typeof many) => (w ? (w.saved.hi - w.saved.lo) / w.saved.value : NaN);
    expect(share(many)).toBeLessThan(share(cleaningWorth([coil()], PRICES, NEVER)));
    expect(share(many)).toBeGreaterThan(0.7);
  });

  it('cannot be told to cost more than it saves where energy is not known', () => {
    expect(cleaningWorth([coil({ pricePerKwh: null })], PRICES, NEVER)?.verdict).toBe('open');
  });

  it('is said in one sentence with its bands, and where each figure comes from', () => {
    const worth = cleaningWorth([coil(), coil({ pricePerKwh: null })], PRICES, PAST) ?? expect.fail('nothing');
    const said = cleaningSentence(worth, 'USD', 30);
    expect(said).toMatch(
      /^The 2 coil cleanings due by now or in the next 30 days cost 120 USD\. Until each comes due again they save about [\d,]+ USD \([\d,]+–[\d,]+\): /,
    );
    expect(said).toMatch(/breakdowns, 1\.0 \(0\.0–2\.\d\) fewer\. Whether that is more than they cost can’t be said yet\.$/);
    expect(cleaningSources(worth, PRICES, 'USD', 0.01).join(' ')).toMatch(/2 cleanings at 60 USD.*1 coil has no energy price.*1 % of days/);
  });
});
