import { describe, expect, it } from 'vitest';
import { bookByHand, checkPlan, planWeek, squeezeIn, type BookedVisit, type WeekProblem } from '@/lib/core/planning';
import { between, seededRandom } from '@/lib/core/planning/random';
import { runOut } from '@/lib/core/planning/steps';
import { MONDAY_DAY, PRICES, at, shopWeek } from '../../support/planning-weeks';

const shop = { lat: 41, lng: -87 };
const near = (n: number) => ({ lat: 41 + 0.01 * n, lng: -87 });
const prices = { waitPerMinute: 0.5, movedVisit: 20, movedPerMinute: 0.2, rebooked: 40 };
const week: WeekProblem = {
  technicians: [
    {
      id: 'a',
      name: 'Ann',
      skills: ['flammable'],
      shifts: [0, 1].map((d) => ({
        day: MONDAY_DAY + d,
        hours: { startMs: at(MONDAY_DAY + d, 8), endMs: at(MONDAY_DAY + d, 16) },
        startPlace: shop,
        endPlace: shop,
        overtimeMinutes: 60,
      })),
    },
    {
      id: 'b',
      name: 'Bo',
      skills: [],
      shifts: [
        {
          day: MONDAY_DAY,
          hours: { startMs: at(MONDAY_DAY, 8), endMs: at(MONDAY_DAY, 16) },
          startPlace: shop,
          endPlace: shop,
        },
      ],
    },
  ],
  kitchens: [1, 2, 3, 4].map((n) => ({
    id: `k${n}`,
    name: `Kitchen ${n}`,
    place: near(n),
    open: [0, 1].map((d) => ({ startMs: at(MONDAY_DAY + d, 8), endMs: at(MONDAY_DAY + d, 15) })),
  })),
  tasks: [],
  travel: { circuity: 1.3, speedKmh: 35 },
  prices: PRICES,
  nextDay: MONDAY_DAY + 2,
};
const booked = (
  id: string,
  technicianId: string,
  kitchenId: string,
  from: number,
  to: number,
  more: Partial<BookedVisit> = {},
): BookedVisit => ({
  id,
  technicianId,
  kitchenId,
  hours: { startMs: at(MONDAY_DAY, from), endMs: at(MONDAY_DAY, to) },
  skills: [],
  fixed: false,
  ...more,
});
const emergency = { kitchenId: 'k4', name: 'Warm walk-in', minutes: 60, skills: [] as string[] };

describe('an emergency', () => {
  it('goes into a gap when there is one, and moves nothing', () => {
    const options = squeezeIn(
      week,
      [booked('v1', 'a', 'k1', 8.5, 10), booked('v2', 'b', 'k2', 8.5, 15)],
      emergency,
      at(MONDAY_DAY, 9),
      prices,
    );
    expect(options[0]).toMatchObject({ technicianId: 'a', moved: [], message: 'Ann: nothing else moves.' });
    // Ann is at k1 until 10:00 and cannot be there before.
    expect(options[0]!.hours.startMs).toBeGreaterThan(at(MONDAY_DAY, 10));
  });

  it('cannot be reached before the drive from where the technician is now', () => {
    const now = at(MONDAY_DAY, 12);
    const [first] = squeezeIn(week, [booked('v1', 'a', 'k1', 8.5, 9)], { ...emergency, skills: ['flammable'] }, now, prices);
    expect(first!.technicianId).toBe('a');
    expect(first!.hours.startMs).toBeGreaterThanOrEqual(now + 7 * 60_000);
  });

  it('lets later visits slip rather than wait all day, and says which', () => {
    const visits = [
      booked('v1', 'a', 'k1', 8.5, 9.5),
      booked('v2', 'a', 'k2', 10, 12),
      booked('v3', 'a', 'k3', 12.5, 13.5),
      booked('v4', 'b', 'k1', 8.2, 15, { fixed: true }),
    ];
    const [first] = squeezeIn(week, visits, emergency, at(MONDAY_DAY, 9), { ...prices, waitPerMinute: 2 });
    expect(first!.technicianId).toBe('a');
    expect(first!.moved.map(({ visitId }) => visitId)).toEqual(['v2', 'v3']);
    expect(first!.message).toBe('Ann: 2 visits start later.');
    for (const move of first!.moved) expect(move.to.startMs).toBeGreaterThan(move.from.startMs);
    // What has begun stays.
    expect(first!.hours.startMs).toBeGreaterThan(at(MONDAY_DAY, 9.5));
  });

  it('rebooks a visit that does not fit any more, for tomorrow', () => {
    const visits = [booked('v1', 'a', 'k1', 8.2, 10), booked('v2', 'a', 'k2', 10.3, 14.9)];
    const [first] = squeezeIn(week, visits, { ...emergency, skills: ['flammable'] }, at(MONDAY_DAY, 9), {
      ...prices,
      waitPerMinute: 2,
    });
    expect(first!.moved).toHaveLength(1);
    expect(first!.moved[0]).toMatchObject({ visitId: 'v2', fromTechnicianId: 'a' });
    expect(first!.message).toBe('Ann: 1 visit is rebooked.');
    const to = first!.moved[0]!.to;
    expect(to.endMs - to.startMs).toBeCloseTo(4.6 * 3_600_000, 3);
    expect(to.startMs).toBeGreaterThanOrEqual(at(MONDAY_DAY, 9));
  });

  it('never moves a fixed visit, and only goes to someone with the skill', () => {
    const visits = [booked('v1', 'a', 'k1', 9.5, 14, { fixed: true })];
    const options = squeezeIn(week, visits, { ...emergency, skills: ['flammable'] }, at(MONDAY_DAY, 9), prices);
    expect(options.length).toBeGreaterThan(0);
    for (const option of options) {
      expect(option.technicianId).toBe('a');
      expect(option.moved).toEqual([]);
    }
    expect(squeezeIn(week, [], { ...emergency, skills: ['roof'] }, at(MONDAY_DAY, 9), prices)).toEqual([]);
  });

  it('leaves no two visits of anyone at the same time by the calendar, and moves to round minutes', () => {
    const random = seededRandom(7);
    let offered = 0;
    let moving = 0;
    for (let trial = 0; trial < 150; trial++) {
      // Rounds so tight that the drives between them do not fit.
      const visits = ['a', 'b'].flatMap((who) => {
        let from = 8 + between(random, 0, 4) / 4;
        return Array.from({ length: between(random, 2, 4) }, (_, i) => {
          const to = from + between(random, 2, 6) / 4;
          const visit = booked(`${who}${i}`, who, `k${between(random, 1, 4)}`, from, to, { fixed: random() < 0.15 });
          from = to + between(random, 0, 2) / 12;
          return visit;
        });
      });
      const options = squeezeIn({ ...week, startsEveryMinutes: 5 }, visits, emergency, at(MONDAY_DAY, 9), {
        ...prices,
        waitPerMinute: 2,
      });
      for (const option of options) {
        offered++;
        moving += option.moved.length;
        const to = new Map(option.moved.map((move) => [move.visitId, move]));
        const all = [
          option,
          ...visits.map((v) => ({ technicianId: to.get(v.id)?.technicianId ?? v.technicianId, hours: to.get(v.id)?.to ?? v.hours })),
        ];
        const touched = (i: number) => i === 0 || to.has(visits[i - 1]!.id);
        all.forEach((one, i) =>
          all.forEach((other, j) => {
            if (j <= i || !(touched(i) || touched(j)) || one.technicianId !== other.technicianId) return;
            expect(one.hours.endMs <= other.hours.startMs || other.hours.endMs <= one.hours.startMs).toBe(true);
          }),
        );
        for (const move of option.moved) {
          expect(move.to.startMs % 300_000).toBe(0);
          expect(visits.find((v) => v.id === move.visitId)!.fixed).toBe(false);
        }
      }
    }
    expect(offered).toBeGreaterThan(150);
    expect(moving).toBeGreaterThan(50);
  });

  it('offers each technician and day once, least disturbance first', () => {
    const options = squeezeIn(
      week,
      [booked('v1', 'a', 'k1', 8.5, 10), booked('v2', 'b', 'k2', 8.5, 10)],
      emergency,
      at(MONDAY_DAY, 9),
      prices,
    );
    expect(options.map((option) => option.cost)).toEqual([...options.map((option) => option.cost)].sort((x, y) => x - y));
    expect(new Set(options.map((option) => `${option.technicianId} ${Math.floor(option.hours.startMs / 86_400_000)}`)).size).toBe(
      options.length,
    );
    expect(options).toHaveLength(3);
  });
});

describe('booking by hand', () => {
  it('is a sound plan, and the planner does better', () => {
    let hand = 0;
    let planned = 0;
    for (let seed = 1; seed <= 2; seed++) {
      const big = shopWeek(seed, { kitchens: 12, technicians: 2, days: 3 });
      const byHand = bookByHand(big);
      expect(checkPlan(big, byHand)).toEqual([]);
      const plan = runOut(planWeek(big, { seed: 1, timeLimitMs: 1e9, now: () => 0 }));
      expect(plan.cost.total).toBeLessThanOrEqual(byHand.cost.total + 1e-6);
      hand += byHand.cost.total;
      planned += plan.cost.total;
    }
    expect(planned).toBeLessThan(0.95 * hand);
  }, 60_000);
});
