import { beforeAll, describe } from 'vitest';
import {
  assumedDrive,
  bookByHand,
  explainVisits,
  greatCircleKm,
  joined,
  learnAccess,
  learnMinutes,
  learnSiteTimes,
  minutesOnSite,
  openings,
  planWeek,
  pricesFrom,
  siteTimeOf,
  siteTimeWords,
  squeezeIn,
  SQUEEZE_PRICES,
  travelMinutes,
  withOnCall,
  without,
  type BookedVisit,
  type LpSolver,
  type Plan,
  type PlannedVisit,
  type WeekProblem,
} from '@/lib/core/planning';
import { bookedMinutes, lengthWords } from '@/lib/core/planning/on-site';
import { between, seededRandom } from '@/lib/core/planning/random';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import { keptAnswers } from '../../support/kept-answers';
import { at, MONDAY_DAY, PRICES, shopWeek, tinyWeek } from '../../support/planning-weeks';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs planning`.

let lp: LpSolver;
beforeAll(async () => {
  lp = await highsLp();
});

const hour = (ms: number) => (ms - at(MONDAY_DAY, 0)) / 3_600_000;
const line = (v: PlannedVisit) => [`${v.technicianId} at ${v.kitchenId}${v.fixedId ? `, ${v.fixedId}` : ''}: ${v.taskIds.join(' ')}`, v.day - MONDAY_DAY, hour(v.hours.startMs), hour(v.hours.endMs), v.driveMinutes, v.lateMinutes]; // prettier-ignore

type Options = Parameters<typeof planWeek>[1];

/** A plan in short, with the way there: how the search got better, and in how many steps. */
function solved(week: WeekProblem, options: Partial<Options> = {}) {
  const found: number[] = [];
  const work = planWeek(week, { seed: 1, timeLimitMs: 1e9, now: () => 0, ...options, onImprovement: (i) => found.push(i.cost.total) });
  for (let steps = 0; ; steps++) {
    const step = work.next();
    if (step.done) return { steps, found, plan: step.value };
  }
}

function inShort({ visits, rounds, unplaced, later, cost, lowerBound, gap, proven, finished }: Plan) {
  const left = [...unplaced, ...later].map((l) => [l.taskId, l.reason.code]);
  const { total, driving, visits: inOut, overtime, lateness, early, overdue, left: undone } = cost;
  return {
    visits: visits.map(line),
    rounds: rounds.map((r) => [hour(r.leaveMs), hour(r.backMs), r.homeDriveMinutes, r.overtimeMinutes]),
    left,
    cost: [total, driving, inOut, overtime, lateness, early, overdue, undone],
    bound: [lowerBound, gap, proven, finished],
  };
}

const TINY = Object.fromEntries(
  Array.from({ length: 24 }, (_, i) => [
    `a tiny week, ${i}`,
    () => {
      const { steps, found, plan } = solved(tinyWeek(i), { lp });
      return { ...inShort(plan), way: [steps, found.length] };
    },
  ]),
);

const promised = (week: WeekProblem): WeekProblem => ({
  ...week,
  fixed: [
    { id: 'f0', technicianId: 't0', kitchenId: 'k0', hours: { startMs: at(MONDAY_DAY, 9), endMs: at(MONDAY_DAY, 10) }, mayRunLateMinutes: 20, taskIds: ['promised 0'] }, // prettier-ignore
    { id: 'f1', technicianId: 't0', kitchenId: 'k1', hours: { startMs: at(MONDAY_DAY, 9.5), endMs: at(MONDAY_DAY, 10.5) }, taskIds: ['k1-u0-coil'] }, // prettier-ignore
    { id: 'f2', technicianId: 't1', kitchenId: 'k2', hours: { startMs: at(MONDAY_DAY + 1, 14), endMs: at(MONDAY_DAY + 1, 15) }, taskIds: ['k2-u1-coil', 'k2-u1-low'] }, // prettier-ignore
  ],
});

/** Nobody could make all of it out of whole cloth: data as a shop might have them wrong. */
function spoilt(): WeekProblem {
  const week = shopWeek(11, { kitchens: 6, technicians: 2, days: 2 });
  const [a, b, c, d, e, f] = week.kitchens;
  if (!a || !b || !c || !d || !e || !f) throw new Error('six kitchens');
  const reversed = a.open.map(({ startMs, endMs }) => ({ startMs: endMs, endMs: startMs }));
  return {
    ...week,
    kitchens: [{ ...a, open: reversed }, { ...b, place: null }, { ...c, open: [] }, { ...d, skills: ['diving'] }, { ...e, place: { lat: 48, lng: 2 } }, { ...f, open: f.open.map((o) => ({ ...o, endMs: o.startMs + 600_000 })) }], // prettier-ignore
    tasks: [...week.tasks, { id: 'odd', kitchenId: 'k9', name: 'Odd', minutes: 20, dueDay: MONDAY_DAY, intervalDays: 30 }, { id: 'none', kitchenId: 'k4', name: 'None', minutes: NaN, dueDay: MONDAY_DAY, intervalDays: 0 }], // prettier-ignore
  };
}

const told = ({ steps, found, plan }: ReturnType<typeof solved>) => ({ ...inShort(plan), found: found.slice(0, 40), steps });
const SIZE = { kitchens: 7, technicians: 2, days: 3 };

const SHOPS: Record<string, () => unknown> = {
  'a shop’s week, hardly searched': () => told(solved(shopWeek(3, SIZE), { effort: 0.03 })),
  'another seed': () => told(solved(shopWeek(3, SIZE), { effort: 0.03, seed: 9 })),
  'a shop’s week with its bound': () => told(solved(shopWeek(5, { kitchens: 5, technicians: 2, days: 2 }), { effort: 0.1, lp })),
  'promised visits, two of them at once': () => told(solved(promised(shopWeek(7, SIZE)), { effort: 0.05 })),
  'time runs out': () => {
    let ticks = 0;
    return told(solved(shopWeek(4, SIZE), { now: () => ticks++, timeLimitMs: 40, lp }));
  },
  'a week as a shop might have it wrong': () => {
    const plan = solved(spoilt(), { effort: 0.05 }).plan;
    return { ...inShort(plan), why: [...new Set([...plan.unplaced, ...plan.later].map((l) => l.reason.message))] };
  },
  'a larger week': () => told(solved(shopWeek(12, { kitchens: 14, technicians: 3, days: 3 }), { effort: 0.04 })),
  'alike technicians': () => {
    const week = shopWeek(8, { kitchens: 6, technicians: 1, days: 1 });
    const [one] = week.technicians;
    if (!one) throw new Error('one technician');
    return told(solved({ ...week, technicians: ['x', 'y', 'z'].map((id) => ({ ...one, id, name: id })) }, { effort: 0.2 }));
  },
  'nothing to do': () => inShort(solved({ ...shopWeek(1, SIZE), tasks: [] }).plan),
  'as a person books it': () => {
    const { visits, rounds, cost } = bookByHand(promised(shopWeek(3, SIZE)));
    return { visits: visits.map(line), rounds: rounds.map((r) => [hour(r.leaveMs), hour(r.backMs), r.driveMinutes]), cost };
  },
  'why each visit': () => {
    const week = shopWeek(3, SIZE);
    return Object.fromEntries([...explainVisits(week, bookByHand(week).visits)].map(([i, why]) => [`visit ${i}`, why]));
  },
};

const booked = (week: WeekProblem): BookedVisit[] =>
  bookByHand(week).visits.map((v, i) => ({ id: `v${i}`, technicianId: v.technicianId, kitchenId: v.kitchenId, hours: v.hours, skills: i % 4 === 0 ? ['roof'] : [], fixed: i % 5 === 0 })); // prettier-ignore
const squeezed = (seed: number, nowHour: number, more: object = {}) => {
  const week = shopWeek(seed, { kitchens: 6, technicians: 2, days: 2 });
  const onCall = { ...week, technicians: week.technicians.map((t) => ({ ...t, shifts: withOnCall(t.shifts, [{ day: MONDAY_DAY, hours: { startMs: at(MONDAY_DAY, 18), endMs: at(MONDAY_DAY, 26) }, startPlace: { lat: 41, lng: -87 }, endPlace: { lat: 41, lng: -87 } }]) })) }; // prettier-ignore
  const emergency = { kitchenId: 'k1', name: 'Warm box', minutes: 45, skills: [], ...more };
  return squeezeIn(onCall, booked(week), emergency, at(MONDAY_DAY, nowHour), SQUEEZE_PRICES).map(
    (o) => [o.message, hour(o.hours.startMs), o.waitMinutes, o.moved.map((m) => [m.visitId, m.technicianId, hour(m.to.startMs)]), o.extraDriveMinutes, o.overtimeMinutes, o.onCall, o.cost], // prettier-ignore
  );
};

const SQUEEZES: Record<string, () => unknown> = {
  'an emergency in the morning': () => squeezed(2, 8.5),
  'an emergency at noon': () => squeezed(6, 12),
  'an emergency at night, let in at any hour': () => squeezed(6, 19, { open: [{ startMs: at(MONDAY_DAY, 0), endMs: at(MONDAY_DAY, 30) }] }),
  'an emergency nobody can meet': () => [squeezed(2, 8, { skills: ['diving'] }), squeezed(2, 8, { kitchenId: 'nowhere' }), squeezed(2, 80)],
};

function visitsDone() {
  const random = seededRandom(5);
  return Array.from({ length: 40 }, (_, i) => {
    const taskMinutes = i === 7 ? 0 : between(random, 10, 120);
    return {
      kitchenId: `k${i % 5}`,
      taskMinutes,
      minutes: i === 11 ? 900 : 14 + taskMinutes * (1.1 + 0.2 * (i % 5)) * (0.8 + 0.4 * random()),
    };
  });
}

const LEARNT: Record<string, () => unknown> = {
  'minutes on site': () => {
    const times = learnSiteTimes(visitsDone());
    const own = siteTimeOf(times, 'k3');
    const other = siteTimeOf(times, 'nowhere');
    const none = learnSiteTimes([]);
    return {
      access: [learnAccess(visitsDone()), learnAccess([]), learnAccess([{ taskMinutes: 30, minutes: 200 }])],
      kitchens: [...times.kitchens],
      shop: [times.shop, none.shop],
      one: learnMinutes([{ kitchenId: 'k', minutes: 60, standardMinutes: 40 }]).shop,
      words: [own, other, none.shop].map((t) => [siteTimeWords(t), minutesOnSite(t, [20, 33]), bookedMinutes(t, [20, 33]), lengthWords(t, [20, 33])]), // prettier-ignore
      ends: [bookedMinutes(none.shop, [1]), bookedMinutes(none.shop, [900]), lengthWords(none.shop, [1]), lengthWords({ ...own, accessMinutes: 8, durationFactor: 1 }, [22, 30])], // prettier-ignore
    };
  },
  ways: () => {
    const [a, b] = [
      { lat: 41, lng: -87, matrixRow: 0 },
      { lat: 41.1, lng: -87.2, matrixRow: 1 },
    ];
    const plain = { circuity: 1.3, speedKmh: 35 };
    const matrix = {
      ...plain,
      matrix: [
        [0, 12.2, -1],
        [NaN, 0, Infinity],
        [3, 4, 0],
      ],
    };
    const nowhere = { unknown: { id: 'x', minutes: 25.5 } };
    return {
      km: [greatCircleKm(a, b), greatCircleKm(a, a)],
      minutes: [travelMinutes(a, b, plain), travelMinutes(a, b, matrix), travelMinutes(b, a, matrix), travelMinutes(a, { ...b, matrixRow: 2 }, matrix), travelMinutes(b, { matrixRow: 2 }, matrix), travelMinutes(a, nowhere, plain), travelMinutes({ lat: 91, lng: 0 }, a, plain)], // prettier-ignore
      assumed: [assumedDrive([a, b], plain), assumedDrive(Array.from({ length: 9 }, (_, i) => ({ lat: 41 + 0.02 * i * i, lng: -87 })), plain), assumedDrive(Array.from({ length: 7 }, () => ({})), plain)], // prettier-ignore
      prices: [pricesFrom(null), pricesFrom({ labourPerHour: 60, vehiclePerKm: 0.5, speedKmh: 40 }), pricesFrom({ labourPerHour: null, vehiclePerKm: null, speedKmh: 20 })], // prettier-ignore
    };
  },
  hours: () => {
    const weekly = [{ weekday: 3, from: '08:00', to: '12:00' }, { weekday: 3, from: '12:00', to: '14:30' }, { weekday: 4, from: '22:00', to: '02:00' }, { weekday: 5, from: '20:00', to: '24:00' }]; // prettier-ignore
    const instant = (day: number, time: string) => day * 24 + Number(time.slice(0, 2)) + Number(time.slice(3)) / 60;
    const range = (startMs: number, endMs: number) => ({ startMs, endMs });
    return {
      open: openings(weekly, [-7, 0, 1, 2, 3, 7, 8], new Set([8]), instant),
      without: without([range(0, 10), range(20, 30)], [range(2, 3), range(9, 22), range(30, 40), range(5, 5)]),
      joined: joined([range(5, 6), range(1, 2), range(2, 4), range(3, 3), range(0, 1.5)]),
    };
  },
  'prices of the week': () => PRICES,
};

describe('kept answers of planning', () => {
  keptAnswers(import.meta.dirname, { ...TINY, ...SHOPS, ...SQUEEZES, ...LEARNT });
});
