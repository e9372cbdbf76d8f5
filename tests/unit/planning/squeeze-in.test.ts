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

  it.each([
    ['three minutes, though they would go unnoticed by themselves', 3, [['v2', 3]]],
    ['nothing where it is over by then', 0, []],
  ])('moves a visit that the calendar would show beside it: by %s', (_, late, expected) => {
    // Ann is in the very kitchen, done with her first visit there; the next begins there an hour on.
    const visits = [booked('v1', 'a', 'k2', 8, 9), booked('v2', 'a', 'k2', 10, 11)];
    const now = at(MONDAY_DAY, 9) + late * 60_000;
    const options = squeezeIn(week, visits, { ...emergency, kitchenId: 'k2', skills: ['flammable'] }, now, prices);
    const next = options.find((o) => o.technicianId === 'a' && o.hours.startMs === now);
    expect(next?.moved.map((m) => [m.visitId, (m.to.startMs - m.from.startMs) / 60_000])).toEqual(expected);
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

  it.each([
    // From k1 at half past nine eight minutes to k4, an hour there from the next round minute, and three minutes to k3.
    ['booked on a round minute, to a round minute', 5, 5, 45],
    ['booked off the round minutes, by what it takes', 5, 7, 43],
    ['where any minute will do, by what it takes', 1, 5, 41],
  ])('lets a visit slip, %s', (_, startsEveryMinutes, minute, to) => {
    const visits = [
      booked('v1', 'a', 'k1', 8.5, 9.5),
      booked('v2', 'a', 'k3', 10 + minute / 60, 11 + minute / 60),
      booked('v3', 'b', 'k1', 8.2, 15, { fixed: true }),
    ];
    const [first] = squeezeIn({ ...week, startsEveryMinutes }, visits, emergency, at(MONDAY_DAY, 9), { ...prices, waitPerMinute: 2 });
    expect(first?.moved.map((move) => [move.visitId, Math.round((move.to.startMs - at(MONDAY_DAY, 10)) / 60_000)])).toEqual([['v2', to]]);
    // Where nothing is in its way it stays where it is booked.
    const free = squeezeIn({ ...week, startsEveryMinutes }, visits.slice(1), { ...emergency, minutes: 20 }, at(MONDAY_DAY, 8.5), prices);
    expect(free[0]?.moved).toEqual([]);
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

describe('offers', () => {
  it('are one for each technician and each day of theirs', () => {
    const days = [0, 1, 2];
    const shifts = (of: readonly number[]) => of.map((d) => ({ day: MONDAY_DAY + d, hours: { startMs: at(MONDAY_DAY + d, 8), endMs: at(MONDAY_DAY + d, 16) }, startPlace: shop, endPlace: shop })); // prettier-ignore
    const longer = {
      ...week,
      technicians: week.technicians.map((t, i) => ({ ...t, shifts: shifts(i === 0 ? days : [1]) })),
      kitchens: week.kitchens.map((k) => ({ ...k, open: days.map((d) => ({ startMs: at(MONDAY_DAY + d, 8), endMs: at(MONDAY_DAY + d, 15) })) })), // prettier-ignore
    };
    const offers = squeezeIn(longer, [booked('v', 'a', 'k1', 9, 10)], emergency, at(MONDAY_DAY, 8), prices);
    expect(offers.map((o) => `${o.technicianId} ${Math.floor(o.hours.startMs / 86_400_000) - MONDAY_DAY}`).sort()).toEqual(['a 0', 'a 1', 'a 2', 'b 1']); // prettier-ignore
  });
});

describe('what an offer says', () => {
  const minutes = (ms: number) => ms / 60_000;
  const way = (from: number, to: number) => Math.ceil(((Math.abs(from - to) * 0.01 * Math.PI) / 180) * 6371.0088 * 1.3 * (60 / 35) - 1e-9);
  const rank = (kitchenId: string) => Number(kitchenId.slice(1));

  it('is its wait, its driving, its overtime and its moves, and its cost is the sum of them', () => {
    const random = seededRandom(21);
    let [slipped, rebooked, late] = [0, 0, 0];
    for (let trial = 0; trial < 60; trial++) {
      const visits = ['a', 'b'].flatMap((who) => {
        let from = 8.5 + between(random, 0, 3) / 2;
        return Array.from({ length: between(random, 1, 3) }, (_, i) => {
          const visit = booked(`${who}${i}`, who, `k${between(random, 1, 4)}`, from, from + between(random, 2, 8) / 4);
          from += minutes(visit.hours.endMs - visit.hours.startMs) / 60 + between(random, 2, 6) / 4;
          return visit;
        });
      });
      const now = at(MONDAY_DAY, 9.5);
      const open = [0, 1].map((d) => ({ startMs: at(MONDAY_DAY + d, 8), endMs: at(MONDAY_DAY + d, 17) }));
      const wide = { ...week, kitchens: week.kitchens.map((k) => ({ ...k, open })) };
      const urgent = { ...emergency, minutes: between(random, 30, 150) };
      for (const option of squeezeIn(wide, visits, urgent, now, { ...prices, waitPerMinute: 2 })) {
        expect(minutes(option.hours.endMs - option.hours.startMs)).toBe(urgent.minutes);
        expect(option.waitMinutes).toBe(minutes(option.hours.startMs - now));
        expect(option.onCall).toBe(false);
        const moved = new Map(option.moved.map((m) => [m.visitId, m]));
        const dayOf = (ms: number) => Math.floor(ms / 86_400_000);
        const fresh = { technicianId: option.technicianId, kitchenId: 'k4', hours: option.hours };
        const after = [fresh, ...visits.map((v) => ({ ...v, technicianId: moved.get(v.id)?.technicianId ?? v.technicianId, hours: moved.get(v.id)?.to ?? v.hours }))]; // prettier-ignore
        const driving = (of: readonly { technicianId: string; kitchenId: string; hours: { startMs: number } }[]) =>
          ['a', 'b'].flatMap((who) => [0, 1].map((d) => {
            const stops = of.filter((v) => v.technicianId === who && dayOf(v.hours.startMs) === MONDAY_DAY + d).sort((x, y) => x.hours.startMs - y.hours.startMs).map((v) => rank(v.kitchenId)); // prettier-ignore
            return stops.length === 0 ? 0 : [...stops, 0].reduce((sum, stop, i) => sum + way(stops[i - 1] ?? 0, stop), 0);
          })).reduce((x, y) => x + y, 0); // prettier-ignore
        expect(option.extraDriveMinutes).toBe(driving(after) - driving(visits));
        const lastOf = (of: readonly { technicianId: string; kitchenId: string; hours: { endMs: number } }[]) =>
          of.filter((v) => v.technicianId === option.technicianId && dayOf(v.hours.endMs) === dayOf(option.hours.startMs))
            .map((v) => minutes(v.hours.endMs - at(dayOf(option.hours.startMs), 16)) + way(rank(v.kitchenId), 0)); // prettier-ignore
        const over = Math.max(0, ...lastOf(after));
        expect(option.overtimeMinutes).toBe(over);
        const gone = option.moved.filter((m) => m.technicianId !== m.fromTechnicianId || dayOf(m.to.startMs) !== MONDAY_DAY || m.to.startMs < m.from.startMs); // prettier-ignore
        const elsewhere = option.message.includes('1 visit is rebooked') ? 1 : 0;
        expect(gone.length).toBeLessThanOrEqual(elsewhere);
        const slips = option.moved.length - elsewhere;
        const words = [slips === 0 ? [] : [`${slips} ${slips === 1 ? 'visit starts' : 'visits start'} later`], elsewhere ? ['1 visit is rebooked'] : []].flat(); // prettier-ignore
        expect(option.message).toBe(`${option.technicianId === 'a' ? 'Ann' : 'Bo'}: ${words.length === 0 ? 'nothing else moves' : words.join(', ')}.`); // prettier-ignore
        for (const move of option.moved) {
          const was = visits.find((v) => v.id === move.visitId);
          expect(move.from).toEqual(was?.hours);
          expect(move.fromTechnicianId).toBe(was?.technicianId);
          expect(move.to.endMs - move.to.startMs).toBe(move.from.endMs - move.from.startMs);
        }
        if (elsewhere === 0) {
          const slipping = option.moved.reduce((sum, m) => sum + minutes(m.to.startMs - m.from.startMs), 0);
          const sum = option.extraDriveMinutes * PRICES.drivingPerMinute + (over - Math.max(0, ...lastOf(visits))) * PRICES.overtimePerMinute + slipping * prices.movedPerMinute + option.moved.length * prices.movedVisit + option.waitMinutes * 2; // prettier-ignore
          // A slip of five minutes or less is told to nobody, and priced all the same.
          expect(option.cost - sum).toBeGreaterThanOrEqual(-1e-6);
          expect(option.cost - sum).toBeLessThanOrEqual(3 * 5 * prices.movedPerMinute + 1e-6);
        } else expect(option.cost).toBeGreaterThan(prices.rebooked + prices.movedVisit);
        slipped += slips;
        rebooked += elsewhere;
        if (over > 0) late++;
      }
    }
    expect(Math.min(slipped, rebooked, late)).toBeGreaterThan(3);
  });

  it('has nothing where the emergency is nowhere or its kitchen stays shut, and waits for the kitchen to open', () => {
    const now = at(MONDAY_DAY, 9);
    expect(squeezeIn(week, [], { ...emergency, kitchenId: 'k9' }, now, prices)).toEqual([]);
    expect(squeezeIn(week, [], { ...emergency, open: [] }, now, prices)).toEqual([]);
    expect(squeezeIn(week, [], { ...emergency, open: [{ startMs: at(MONDAY_DAY, 5), endMs: now }] }, now, prices)).toEqual([]);
    const noon = { startMs: at(MONDAY_DAY, 12), endMs: at(MONDAY_DAY, 14) };
    const options = squeezeIn(week, [], { ...emergency, open: [noon] }, now, prices);
    expect(options.map((o) => [o.technicianId, o.hours.startMs, o.waitMinutes])).toEqual([['a', noon.startMs, 180], ['b', noon.startMs, 180]]); // prettier-ignore
  });

  it('calls on whoever is on call out of hours, moves no visit into such hours, and says that it is a call-out', () => {
    const night = { startMs: at(MONDAY_DAY, 20), endMs: at(MONDAY_DAY, 30) };
    const shifts = week.technicians.map((t) => t.shifts);
    const onCall = { day: MONDAY_DAY, hours: night, startPlace: shop, endPlace: shop, onCall: true, overtimeMinutes: 0 };
    const called = { ...week, technicians: week.technicians.map((t, i) => (i === 0 ? { ...t, shifts: [...(shifts[0] ?? []), onCall] } : t)) }; // prettier-ignore
    const open = [{ startMs: at(MONDAY_DAY, 0), endMs: at(MONDAY_DAY, 30) }];
    const options = squeezeIn(called, [], { ...emergency, open }, at(MONDAY_DAY, 21), prices);
    expect(options.map((o) => [o.technicianId, minutes(o.hours.startMs - at(MONDAY_DAY, 21)), o.onCall, o.overtimeMinutes])).toEqual([['a', way(0, 4), true, 0]]); // prettier-ignore
    // A long visit has to give way, and its kitchen is open by night alone: it goes there where somebody works then, not where he is on call.
    const full = [booked('long', 'a', 'k2', 10, 15.5), booked('other', 'b', 'k1', 8.1, 15.9, { fixed: true })];
    const split = [{ startMs: at(MONDAY_DAY, 0), endMs: at(MONDAY_DAY, 15.6) }, { startMs: at(MONDAY_DAY, 19), endMs: at(MONDAY_DAY, 30) }]; // prettier-ignore
    const evening = (more: object) => {
      const shift = { ...onCall, ...more };
      const late = { ...week, kitchens: week.kitchens.map((k) => ({ ...k, open: split })), technicians: week.technicians.map((t, i) => (i === 0 ? { ...t, shifts: [...(shifts[0] ?? []).slice(0, 1), shift] } : t)) }; // prettier-ignore
      const first = squeezeIn(late, full, { ...emergency, minutes: 300, skills: ['flammable'], open: [{ startMs: at(MONDAY_DAY, 9), endMs: at(MONDAY_DAY, 15.5) }] }, at(MONDAY_DAY, 9), prices)[0]; // prettier-ignore
      return first?.moved.map((move) => [move.visitId, move.to.startMs >= at(MONDAY_DAY, 20)]) ?? null;
    };
    expect(evening({ onCall: false })).toEqual([['long', true]]);
    expect(evening({})).toBeNull();
    // The same of overtime: what of it is for emergencies alone is no working time.
    expect(evening({ onCall: false, hours: { startMs: at(MONDAY_DAY, 20), endMs: at(MONDAY_DAY, 22) }, overtimeMinutes: 480 })).toEqual([['long', true]]); // prettier-ignore
    expect(evening({ onCall: false, hours: { startMs: at(MONDAY_DAY, 20), endMs: at(MONDAY_DAY, 22) }, overtimeMinutes: 480, onCallMinutes: 480 })).toBeNull(); // prettier-ignore
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
