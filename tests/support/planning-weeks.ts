import { seededRandom, between, shuffle, type Random } from '@/lib/core/planning/random';
import type { Kitchen, PlanTask, Prices, TimeRange, WeekProblem } from '@/lib/core/planning';

/** Invented weeks for the planner: small enough to try every plan, or as large as a shop's. */

export const MONDAY_DAY = 20_000;
export const PRICES: Prices = {
  drivingPerMinute: 1,
  workPerMinute: 0.75,
  overtimePerMinute: 0.6,
  latePerMinute: 1,
  overduePerDay: 4,
  leftUndone: 150,
};

const HOUR = 3_600_000;
export const at = (day: number, hour: number): number => day * 24 * HOUR + hour * HOUR;
const pick = <T>(random: Random, list: readonly T[]): T => list[between(random, 0, list.length - 1)]!;

/** Around a made-up town; about 12 km by 12 km. */
const somewhere = (random: Random) => ({ lat: 41 + random() * 0.11, lng: -87 - random() * 0.14 });

/** Up to three kitchens, six tasks, two technicians and two days, with windows, skills and bring-along rules. */
export function tinyWeek(seed: number): WeekProblem {
  const random = seededRandom(seed);
  const days = between(random, 1, 2);
  const technicians = Array.from({ length: between(random, 1, 2) }, (_, t) => ({
    id: `t${t}`,
    name: `Technician ${t}`,
    skills: ['flammable', 'roof'].filter(() => random() < 0.6),
    shifts: Array.from({ length: days }, (_, d) => d)
      .filter(() => random() < 0.9)
      .map((d) => {
        const base = somewhere(random);
        const start = between(random, 7, 9);
        return {
          day: MONDAY_DAY + d,
          hours: { startMs: at(MONDAY_DAY + d, start), endMs: at(MONDAY_DAY + d, start + between(random, 2, 9)) },
          startPlace: base,
          endPlace: random() < 0.7 ? base : somewhere(random),
          overtimeMinutes: pick(random, [0, 0, 30, 60]),
        };
      }),
  }));
  const kitchens: Kitchen[] = Array.from({ length: between(random, 2, 3) }, (_, k) => ({
    id: `k${k}`,
    name: `Kitchen ${k}`,
    place: somewhere(random),
    open: Array.from({ length: days }, (_, d) => openingsOf(random, MONDAY_DAY + d)).flat(),
    accessMinutes: between(random, 0, 15),
    durationFactor: 0.8 + random() * 0.6,
    skills: random() < 0.15 ? ['roof'] : [],
    anotherTrip: between(random, 10, 90),
  }));
  const tasks: PlanTask[] = [];
  const count = between(random, 2, 6);
  while (tasks.length < count) {
    const kitchen = pick(random, kitchens);
    const unitId = `${kitchen.id}-u${between(random, 0, 1)}`;
    const role = pick(random, ['coil_cleaning', 'low_side_inspection', 'other'] as const);
    const intervalDays = pick(random, [30, 60, 90]);
    tasks.push({
      id: `a${tasks.length}`,
      kitchenId: kitchen.id,
      unitId,
      role,
      name: `Task ${tasks.length}`,
      minutes: between(random, 10, 75),
      dueDay: MONDAY_DAY + between(random, -6, 14),
      intervalDays,
      skills: random() < 0.2 ? ['flammable'] : [],
      ...(random() < 0.1 ? { notBeforeDay: MONDAY_DAY + 1 } : {}),
    });
  }
  return {
    technicians,
    kitchens,
    tasks,
    travel: { circuity: 1.3, speedKmh: 35 },
    prices: { ...PRICES, leftUndone: pick(random, [20, 150]), secondVisit: pick(random, [0, 40, 300]) },
    nextDay: MONDAY_DAY + days,
    startsEveryMinutes: seed % 3 === 0 ? 5 : 1,
  };
}

function openingsOf(random: Random, day: number): TimeRange[] {
  if (random() < 0.1) return [];
  const first = 6 + between(random, 0, 4) + pick(random, [0, 0.5]);
  const long = pick(random, [0.75, 1.5, 3, 5]);
  const ranges = [{ startMs: at(day, first), endMs: at(day, first + long) }];
  if (random() < 0.5) ranges.push({ startMs: at(day, first + long + 1), endMs: at(day, first + long + 1 + pick(random, [1, 2, 3])) });
  return ranges;
}

/** A shop's week: lunch and dinner rushes closed, several units a kitchen, a few tasks due and more to come. */
export function shopWeek(seed: number, size: { kitchens: number; technicians: number; days: number }): WeekProblem {
  const random = seededRandom(seed);
  const shop = { lat: 41.055, lng: -87.07 };
  const days = Array.from({ length: size.days }, (_, d) => MONDAY_DAY + d);
  const technicians = Array.from({ length: size.technicians }, (_, t) => {
    const home = somewhere(random);
    const off = random() < 0.4 ? pick(random, days) : -1;
    return {
      id: `t${t}`,
      name: `Technician ${t + 1}`,
      skills: t === 0 ? ['flammable', 'roof'] : ['flammable', 'roof'].filter(() => random() < 0.6),
      shifts: days
        .filter((day) => day !== off)
        .map((day) => ({
          day,
          hours: { startMs: at(day, 7), endMs: at(day, 15.5) },
          startPlace: t % 2 === 0 ? home : shop,
          endPlace: t % 2 === 0 ? home : shop,
          overtimeMinutes: 60,
        })),
    };
  });
  const kitchens: Kitchen[] = Array.from({ length: size.kitchens }, (_, k) => {
    const closed = random() < 0.3 ? pick(random, days) : -1;
    const early = pick(random, [6, 7, 8]);
    return {
      id: `k${k}`,
      name: `Kitchen ${k + 1}`,
      place: somewhere(random),
      accessMinutes: between(random, 5, 15),
      durationFactor: 0.85 + random() * 0.4,
      skills: random() < 0.1 ? ['roof'] : [],
      open: days
        .filter((day) => day !== closed)
        .flatMap((day) => [
          { startMs: at(day, early), endMs: at(day, 11) },
          { startMs: at(day, 14), endMs: at(day, 16.5) },
        ]),
    };
  });
  const tasks: PlanTask[] = kitchens.flatMap((kitchen) => {
    const units = between(random, 2, 5);
    const near = between(random, -5, 9);
    return Array.from({ length: units }, (_, u) => {
      const unitId = `${kitchen.id}-u${u}`;
      const skills = random() < 0.2 ? ['flammable'] : [];
      const coil = pick(random, [30, 60, 90]);
      const due = MONDAY_DAY + near + (random() < 0.6 ? 0 : between(random, 3, 40));
      const base = { kitchenId: kitchen.id, unitId, skills };
      const list: PlanTask[] = [
        {
          ...base,
          id: `${unitId}-coil`,
          role: 'coil_cleaning',
          name: `Coil ${u}`,
          minutes: between(random, 20, 40),
          dueDay: due,
          intervalDays: coil,
        },
        {
          ...base,
          id: `${unitId}-low`,
          role: 'low_side_inspection',
          name: `Low side ${u}`,
          minutes: between(random, 8, 15),
          dueDay: due + between(random, 0, 20),
          intervalDays: coil,
        },
      ];
      if (random() < 0.4)
        list.push({
          ...base,
          id: `${unitId}-drain`,
          role: 'other',
          name: `Drain ${u}`,
          minutes: between(random, 10, 20),
          dueDay: MONDAY_DAY + between(random, -3, 60),
          intervalDays: 90,
        });
      return list;
    }).flat();
  });
  return {
    technicians,
    kitchens,
    tasks: shuffle(random, tasks),
    travel: { circuity: 1.3, speedKmh: 35 },
    prices: PRICES,
    nextDay: MONDAY_DAY + size.days + 2,
  };
}
