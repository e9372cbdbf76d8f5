import { randomUUID } from 'node:crypto';
import type { Weekday } from '../../lib/core/calendar';
import type { Aspect, Grade } from '../../lib/core/findings/grades';
import type { Prisma } from '../../lib/database/generated/client';

/** Whole rows with sensible values, for tests and the demo shop alike: name only what matters to you. */

const CITY_ZONE = 'America/Denver';
const WEEKDAYS = [0, 1, 2, 3, 4] as const;
const hours = (from: string, to: string, days: readonly Weekday[] = WEEKDAYS) => days.map((weekday) => ({ weekday, from, to }));
export const weeklyHours = hours;

type Over<T> = Partial<T>;
let count = 0;
const numbered = (word: string) => `${word} ${++count}`;

export const personRow = (over: Over<Prisma.UserCreateManyInput> = {}): Prisma.UserCreateManyInput => ({
  id: randomUUID(),
  email: `${numbered('person').replace(' ', '-')}@larkspurcold.example`,
  name: 'Someone',
  role: 'technician',
  passwordHash: 'none',
  skills: ['flammable', 'roof'],
  shifts: hours('07:00', '16:00'),
  ...over,
});

export const customerRow = (over: Over<Prisma.CustomerCreateManyInput> = {}): Prisma.CustomerCreateManyInput => ({
  id: randomUUID(),
  name: numbered('Customer'),
  ...over,
});

export const kitchenRow = (customerId: string, over: Over<Prisma.KitchenCreateManyInput> = {}): Prisma.KitchenCreateManyInput => ({
  id: randomUUID(),
  customerId,
  name: numbered('Kitchen'),
  timeZone: CITY_ZONE,
  altitudeM: 1609,
  lat: 39.742,
  lng: -104.987,
  serviceHours: hours('07:00', '16:00'),
  energyPricePerKwh: 0.14,
  hotDayAirK: 311,
  ...over,
});

export const unitRow = (kitchenId: string, over: Over<Prisma.UnitCreateManyInput> = {}): Prisma.UnitCreateManyInput => ({
  id: randomUUID(),
  kitchenId,
  tag: numbered('TAG').replace(' ', '-'),
  name: 'Reach-in',
  kind: 'reach_in',
  refrigerant: 'R134a',
  chargeKg: 0.35,
  application: 'medium',
  expansion: 'capillary',
  circuitAccess: 'ports',
  condenserKind: 'fin_and_tube',
  placement: 'fryer',
  cutoutPaGauge: 1.724e6,
  boxSetK: 276.15,
  ...over,
});

export const taskRow = (
  unit: { id: string; kitchenId: string },
  over: Over<Prisma.TaskCreateManyInput> = {},
): Prisma.TaskCreateManyInput => ({
  id: randomUUID(),
  unitId: unit.id,
  kitchenId: unit.kitchenId,
  kindKey: 'coil_cleaning',
  rule: 'FREQ=WEEKLY;INTERVAL=12',
  anchorDate: new Date('2026-01-05T00:00:00Z'),
  dueOn: new Date('2026-01-05T00:00:00Z'),
  minWeeks: 2,
  maxWeeks: 52,
  ...over,
});

export const visitRow = (
  kitchenId: string,
  technicianId: string,
  startsAt: Date,
  minutes: number,
  over: Over<Prisma.VisitCreateManyInput> = {},
): Prisma.VisitCreateManyInput => ({
  id: randomUUID(),
  kitchenId,
  technicianId,
  startsAt,
  endsAt: new Date(startsAt.getTime() + minutes * 60_000),
  status: 'booked',
  ...over,
});

export const visitTaskRow = (
  visitId: string,
  task: { id?: string; unitId: string },
  over: Over<Prisma.VisitTaskCreateManyInput> = {},
): Prisma.VisitTaskCreateManyInput => ({
  id: randomUUID(),
  visitId,
  taskId: task.id as string,
  unitId: task.unitId,
  outcome: 'planned',
  open: true,
  ...over,
});

export const findingRow = (
  visitId: string,
  unitId: string,
  aspect: Aspect,
  grade: Grade | null,
  at: Date,
  over: Over<Prisma.FindingCreateManyInput> = {},
): Prisma.FindingCreateManyInput => ({
  id: randomUUID(),
  visitId,
  unitId,
  aspect,
  grade,
  at,
  phase: 'found',
  ...over,
});

export const readingRow = (unitId: string, at: Date, over: Over<Prisma.ReadingCreateManyInput> = {}): Prisma.ReadingCreateManyInput => ({
  id: randomUUID(),
  unitId,
  at,
  phase: 'before',
  steadyMinutes: 15,
  gaugeGrade: '1A',
  gaugeSpanPa: 3.447e6,
  ...over,
});
