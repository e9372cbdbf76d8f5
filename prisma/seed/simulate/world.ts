import { toDay, type LocalDate } from '../../../lib/core/calendar';
import { condenserUnitOf } from '../../../lib/core/condenser/from-record';
import type { CondenserUnit } from '../../../lib/core/condenser';
import type { UnitModel } from '../../../lib/core/condenser/machine/model';
import { RandomStream } from '../../../lib/core/numerics/random';
import type { Prisma } from '../../../lib/database/generated/client';
import type { Placed } from '../shop/assemble';
import { trueModel, vanOf, type Van } from './measure';
import { UNIT_STORIES } from './stories';
import { drawTruth, type Truth } from './truth';
import { UnitState } from './unit-state';

export type SimUnit = {
  row: Prisma.UnitCreateManyInput;
  tasks: Prisma.TaskCreateManyInput[];
  core: CondenserUnit;
  truth: Truth;
  state: UnitState;
  model: UnitModel | null;
  random: RandomStream;
  /** Day by which somebody is to come back. */
  recallDay: number | null;
};
export type SimKitchen = { place: Placed; units: SimUnit[]; technician: Technician; booked: boolean };
export type Technician = { row: Prisma.UserCreateManyInput; van: Van; busy: Map<string, Busy[]> };

/** Minutes of a day at a place. */
export type Busy = { from: number; to: number; at: { lat: number; lng: number } };

/** Work asked for about a unit: a job with its one unit and its history. */
export type SimJob = Omit<Prisma.JobCreateManyInput, 'source' | 'kitchenId' | 'createdAt'> & {
  id: string;
  unitId: string;
  createdAt: Date;
  /** When later visits found it again. */
  again: { visitId: string; at: Date; by: string; note: string }[];
};

/** Rows of the history, as they will be written. */
export type Out = {
  visits: Prisma.VisitCreateManyInput[];
  visitTasks: Prisma.VisitTaskCreateManyInput[];
  visitEvents: Prisma.VisitEventCreateManyInput[];
  unitVisits: Prisma.UnitVisitCreateManyInput[];
  findings: Prisma.FindingCreateManyInput[];
  readings: Prisma.ReadingCreateManyInput[];
  unitEvents: Prisma.UnitEventCreateManyInput[];
  jobs: SimJob[];
  foodWarnings: Prisma.FoodWarningCreateManyInput[];
  parts: Prisma.PartUsedCreateManyInput[];
};
const nothingYet = (): Out => ({
  visits: [],
  visitTasks: [],
  visitEvents: [],
  unitVisits: [],
  findings: [],
  readings: [],
  unitEvents: [],
  jobs: [],
  foodWarnings: [],
  parts: [],
});

export type World = {
  seed: number;
  start: LocalDate;
  today: LocalDate;
  kitchens: SimKitchen[];
  technicians: Technician[];
  desk: string;
  out: Out;
  random: RandomStream;
};

/** Everything as it stands on the day the record starts, truth included. */
export function beginWorld(
  seed: number,
  start: LocalDate,
  today: LocalDate,
  placed: readonly Placed[],
  staff: readonly Prisma.UserCreateManyInput[],
): World {
  const technicians = staff
    .filter((s) => s.role === 'technician')
    .map((row) => ({
      row,
      van: vanOf(row.gaugeGrade as string, row.gaugeSpanPa as number, new RandomStream(seed, `van ${row.email}`)),
      busy: new Map(),
    }));
  const kitchens = placed.map((place, n) => ({
    place,
    booked: false,
    technician: technicians[n % technicians.length] as Technician,
    units: place.units.map(({ row, tasks }) => {
      const random = new RandomStream(seed, `life of ${row.tag}`);
      const core = condenserUnitOf(row, place.kitchen);
      const story = UNIT_STORIES[`${place.seed.name}/${row.name}`] ?? {};
      const truth = drawTruth(core, place.seed.foulingFactor, story, toDay(today), random);
      return {
        row,
        tasks,
        core,
        truth,
        random,
        state: new UnitState(toDay(start), toDay(today), truth, random),
        model: trueModel(core, truth),
        recallDay: null,
      };
    }),
  }));
  const desk = staff.find((s) => s.role === 'dispatcher')?.id as string;
  return { seed, start, today, kitchens, technicians, desk, out: nothingYet(), random: new RandomStream(seed, 'dispatch') };
}
