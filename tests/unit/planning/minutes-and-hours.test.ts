import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromDay, instantOf, localDate, toDay } from '@/lib/core/calendar';
import { greatCircleKm, joined, learnMinutes, openings, travelMinutes, without, type TimeRange } from '@/lib/core/planning';
import { seededRandom } from '@/lib/core/planning/random';
import { isPlaced } from '@/lib/core/planning/travel';

describe('travel', () => {
  it('measures the great circle', () => {
    // Heathrow to JFK: 5,540 km in airline tables (common practice); 0.5 % for the Earth's flattening.
    const km = greatCircleKm({ lat: 51.47, lng: -0.4543 }, { lat: 40.6413, lng: -73.7781 });
    expect(Math.abs(km / 5540 - 1)).toBeLessThan(0.005);
    // A degree of a great circle is 111.195 km on a sphere of 6371.0088 km.
    expect(greatCircleKm({ lat: 0, lng: 0 }, { lat: 0, lng: 1 })).toBeCloseTo(111.195, 2);
    expect(greatCircleKm({ lat: 10, lng: 20 }, { lat: 10, lng: 20 })).toBe(0);
  });

  it('stretches by circuity, divides by speed, rounds up to whole minutes', () => {
    const travel = { circuity: 1.3, speedKmh: 35 };
    // 111.195 km × 1.3 / 35 km/h = 247.81 min
    expect(travelMinutes({ lat: 0, lng: 0 }, { lat: 0, lng: 1 }, travel)).toBe(248);
  });

  it.each([
    ['the poles and the date line', 90, 180, true],
    ['the other pole', -90, -180, true],
    ['north of the pole', 90.1, 0, false],
    ['south of the other', -90.1, 0, false],
    ['east of the date line', 0, 180.1, false],
    ['west of it', 0, -180.1, false],
    ['no number', NaN, 0, false],
    ['half a place', 10, undefined, false],
    ['the other half', undefined, 10, false],
    ['half of nothing', 10, null, false],
  ])('knows what is a place on Earth: %s', (_, lat, lng, known) => {
    const travel = { circuity: 1.3, speedKmh: 35 };
    const place = JSON.parse(JSON.stringify({ lat: Number.isNaN(lat) ? 'x' : lat, lng }));
    expect(travelMinutes(place, { lat: 0, lng: 0 }, travel) !== null).toBe(known);
    expect(travelMinutes({ lat: 0, lng: 0 }, place, travel) !== null).toBe(known);
    expect(isPlaced(place, travel)).toBe(known);
  });

  it('prefers the matrix, and knows when there is no way', () => {
    const travel = {
      circuity: 1,
      speedKmh: 60,
      matrix: [
        [0, 7.2],
        [9, 0],
      ],
    };
    expect(travelMinutes({ matrixRow: 0 }, { matrixRow: 1 }, travel)).toBe(8);
    expect(travelMinutes({ matrixRow: 1 }, { matrixRow: 0 }, travel)).toBe(9);
    expect(travelMinutes({ matrixRow: 0 }, { matrixRow: 5 }, travel)).toBeNull();
    expect(travelMinutes({ matrixRow: 0, lat: 0, lng: 0 }, { lat: 0, lng: 0 }, travel)).toBe(0);
    expect(travelMinutes({}, { lat: 0, lng: 0 }, travel)).toBeNull();
  });

  it('asks the coordinates where the matrix has no number for a pair', () => {
    const here = { lat: 0, lng: 0 };
    const there = { lat: 0, lng: 1 };
    const travel = (to: number) => ({
      circuity: 1.3,
      speedKmh: 35,
      matrix: [
        [0, to],
        [NaN, 0],
      ],
    });
    expect(travelMinutes({ ...there, matrixRow: 1 }, { ...here, matrixRow: 0 }, travel(30))).toBe(248);
    expect(travelMinutes({ ...here, matrixRow: 0 }, { ...there, matrixRow: 1 }, travel(30))).toBe(30);
    expect(travelMinutes({ matrixRow: 1 }, { matrixRow: 0 }, travel(30))).toBeNull();
    // A place without a row of its own, such as home.
    expect(travelMinutes(here, { ...there, matrixRow: 1 }, travel(30))).toBe(248);
    // "No way" is an answer too.
    expect(travelMinutes({ ...here, matrixRow: 0 }, { ...there, matrixRow: 1 }, travel(Infinity))).toBeNull();
  });
});

describe('hours', () => {
  const day = 20_003; // a Wednesday: 1970-01-01 was a Thursday, and 20003 = 2857 × 7 + 4, less one week's turn
  const instantAt = (d: number, time: string): number => d * 1440 + Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

  it('lays weekly hours over the days, leaves closed days out, and runs past midnight', () => {
    const weekday = (day + 3) % 7;
    const hours = [
      { weekday, from: '06:00', to: '11:00' },
      { weekday, from: '22:00', to: '02:00' },
    ];
    expect(openings(hours, [day, day + 1], new Set(), instantAt)).toEqual([
      { startMs: instantAt(day, '06:00'), endMs: instantAt(day, '11:00') },
      { startMs: instantAt(day, '22:00'), endMs: instantAt(day + 1, '02:00') },
    ]);
    expect(openings(hours, [day], new Set([day]), instantAt)).toEqual([]);
  });

  it('takes 24:00 as the midnight that ends the day, however long the clocks made it', () => {
    const openFor = (date: string, from: string, zone: string) => {
      const d = toDay(localDate(date));
      const at = (n: number, time: string) => instantOf(fromDay(n), time, zone);
      const [range] = openings([{ weekday: (d + 3) % 7, from, to: '24:00' }], [d], new Set(), at);
      return [new Date(range!.endMs).toISOString(), (range!.endMs - range!.startMs) / 3_600_000];
    };
    expect(openFor('2026-06-10', '18:00', 'America/Denver')).toEqual(['2026-06-11T06:00:00.000Z', 6]);
    // Clocks in Denver go back on 1 November 2026 and forward on 14 March 2027, at 02:00.
    expect(openFor('2026-11-01', '00:00', 'America/Denver')).toEqual(['2026-11-02T07:00:00.000Z', 25]);
    expect(openFor('2027-03-14', '00:00', 'America/Denver')).toEqual(['2027-03-15T06:00:00.000Z', 23]);
    // In Beirut they go forward at midnight: the day after 28 March 2026 begins at 01:00.
    expect(openFor('2026-03-28', '18:00', 'Asia/Beirut')).toEqual(['2026-03-28T22:00:00.000Z', 6]);
  });

  it('counts weekdays from Monday', () => {
    // 2026-11-23 is a Monday: day 20780.
    expect(openings([{ weekday: 0, from: '08:00', to: '09:00' }], [20780], new Set(), instantAt)).toHaveLength(1);
    expect(openings([{ weekday: 0, from: '08:00', to: '09:00' }], [20781], new Set(), instantAt)).toHaveLength(0);
  });

  it('takes ranges out of ranges', () => {
    expect(
      without(
        [{ startMs: 0, endMs: 10 }],
        [
          { startMs: 3, endMs: 5 },
          { startMs: 9, endMs: 20 },
        ],
      ),
    ).toEqual([
      { startMs: 0, endMs: 3 },
      { startMs: 5, endMs: 9 },
    ]);
    expect(without([{ startMs: 0, endMs: 10 }], [{ startMs: 10, endMs: 12 }])).toEqual([{ startMs: 0, endMs: 10 }]);
  });

  it('throws at a reversed range', () => expect(() => joined([{ startMs: 5, endMs: 4 }])).toThrow(RangeError));

  it('agrees with counting minute by minute', () => {
    const range = fc
      .tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 15 }))
      .map(([startMs, long]): TimeRange => ({ startMs, endMs: startMs + long }));
    const covers = (ranges: readonly TimeRange[], t: number): boolean => ranges.some((r) => t >= r.startMs && t < r.endMs);
    fc.assert(
      fc.property(fc.array(range, { maxLength: 6 }), fc.array(range, { maxLength: 6 }), (open, taken) => {
        const rest = without(open, taken);
        for (let t = 0; t < 60; t++) expect(covers(rest, t)).toBe(covers(open, t) && !covers(taken, t));
        for (let i = 1; i < rest.length; i++) expect(rest[i]!.startMs).toBeGreaterThan(rest[i - 1]!.endMs - 1);
      }),
    );
  });
});

describe('minutes learned from finished visits', () => {
  it('starts from the book and is unsure', () => {
    const { shop, kitchens } = learnMinutes([]);
    expect(shop.factor).toBe(1);
    expect(shop.low).toBeLessThan(0.75);
    expect(shop.high).toBeGreaterThan(1.35);
    expect(kitchens.size).toBe(0);
  });

  it('follows a kitchen more the more visits it has, and narrows', () => {
    const slow = (n: number) =>
      learnMinutes(Array.from({ length: n }, () => ({ kitchenId: 'k', standardMinutes: 60, minutes: 90 }))).kitchens.get('k')!;
    expect(slow(1).factor).toBeGreaterThan(1);
    expect(slow(1).factor).toBeLessThan(slow(4).factor);
    expect(slow(4).factor).toBeLessThan(slow(30).factor);
    expect(slow(30).factor).toBeLessThan(1.5);
    expect(slow(30).high - slow(30).low).toBeLessThan(slow(4).high - slow(4).low);
  });

  it('is not thrown by a visit that was never closed, and ignores those without times', () => {
    const usual = Array.from({ length: 10 }, () => ({ kitchenId: 'k', standardMinutes: 60, minutes: 60 }));
    const { kitchens } = learnMinutes([
      ...usual,
      { kitchenId: 'k', standardMinutes: 60, minutes: 60 * 24 * 30 },
      { kitchenId: 'k', standardMinutes: 0, minutes: 60 },
      { kitchenId: 'k', standardMinutes: 60, minutes: NaN },
    ]);
    expect(kitchens.get('k')!.visits).toBe(11);
    expect(kitchens.get('k')!.factor).toBeLessThan(1.2);
  });

  it('finds the factors that made-up visits were drawn from, nine times in ten within the band', () => {
    const random = seededRandom(4);
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    let inside = 0;
    let squareError = 0;
    let squareRaw = 0;
    const trials = 2000;
    for (let t = 0; t < trials / 20; t++) {
      const truth = Array.from({ length: 20 }, () => 0.1 + 0.2 * normal());
      const visits = truth.flatMap((log, k) =>
        Array.from({ length: 3 }, () => ({
          kitchenId: `k${k}`,
          standardMinutes: 50,
          minutes: 50 * Math.exp(log + 0.3 * normal()),
        })),
      );
      const learned = learnMinutes(visits);
      truth.forEach((log, k) => {
        const { factor, low, high } = learned.kitchens.get(`k${k}`)!;
        if (Math.exp(log) >= low && Math.exp(log) <= high) inside++;
        const own = visits.filter((visit) => visit.kitchenId === `k${k}`);
        squareError += (Math.log(factor) - log) ** 2;
        squareRaw += (own.reduce((sum, visit) => sum + Math.log(visit.minutes / 50), 0) / own.length - log) ** 2;
      });
    }
    expect(inside / trials).toBeGreaterThan(0.87);
    expect(inside / trials).toBeLessThan(0.93);
    // Drawing towards the shop's mean must beat each kitchen on its own.
    expect(squareError).toBeLessThan(0.8 * squareRaw);
  });
});
