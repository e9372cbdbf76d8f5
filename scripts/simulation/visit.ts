import { addDays, localDate, type LocalDate } from '../../lib/core/calendar';
import { GRADES, type CoilGrade } from '../../lib/core/findings/grades';
import type { Phase, UnitEvent } from '../../lib/core/fouling';
import type { RandomStream } from '../../lib/core/numerics/random';
import { deposit, wash, type Coil, type Technician, type TrueUnit, type World } from './world';

export const FIRST_DAY = localDate('2023-01-02');
export const dateOf = (day: number): LocalDate => addDays(FIRST_DAY, day);

const PACKED = 4;

/** The grade written down of a deposit: by an eye that is a little off, or now and then any grade at all. */
export function judged(y: number, { eye }: Technician, { steps, kind }: World, s: RandomStream): CoilGrade {
  const seen = y + eye + s.normal(0, 0.045);
  const grade = steps.filter((c) => seen > c).length;
  const written = kind.misread > 0 && s.chance(kind.misread) ? s.whole(0, PACKED) : grade;
  return (GRADES.coil[written] as { grade: CoilGrade }).grade;
}

function reading(y: number, unit: TrueUnit, fanDead: boolean, on: LocalDate, phase: Phase, s: RandomStream): UnitEvent {
  const sd = s.between(0.06, 0.14);
  const spoiled = s.chance(0.04) ? s.between(0.1, 0.6) : 0;
  return {
    kind: 'reading',
    on,
    phase,
    sd,
    lnK: -(y + unit.readingBias + sd * s.normal()) - spoiled - (fanDead ? 0.5 : 0),
  };
}

/** What a cleaning takes off in this world. */
const restoreOf = (world: World, technician: Technician, s: RandomStream): number =>
  world.kind.cleaning === 'uneven' ? s.between(0.45, 1) : technician.restore;

/** A visit that cleans: what is written down, with the coil cleaned. `foundPacked` is what an exact eye would have said. */
export function cleaningVisit(
  c: Coil,
  unit: TrueUnit,
  world: World,
  day: number,
  fanDead: boolean,
  technician: Technician,
  s: RandomStream,
  deep: boolean,
): { events: UnitEvent[]; foundPacked: boolean; saidPacked: boolean } {
  const on = dateOf(day);
  const by = technician.id;
  const events: UnitEvent[] = [];
  const foundPacked = deposit(c) >= (world.steps[PACKED - 1] as number);
  if (fanDead && s.chance(0.85)) events.push({ kind: 'fan', on, grade: 'failed' }, { kind: 'fan', on, grade: 'sound' });
  if (s.chance(0.92)) events.push({ kind: 'coil', on, grade: judged(deposit(c), technician, world, s), phase: 'before', by });
  const saidPacked = events.some((e) => e.kind === 'coil' && e.grade === 'packed');
  if (s.chance(0.5)) events.push(reading(deposit(c), unit, fanDead, on, 'before', s));
  wash(c, unit, restoreOf(world, technician, s), s, deep);
  events.push({ kind: 'cleaning', on, deep });
  if (s.chance(0.6)) events.push({ kind: 'coil', on, grade: judged(deposit(c), technician, world, s), phase: 'after', by });
  if (s.chance(0.4)) events.push(reading(deposit(c), unit, false, on, 'after', s));
  return { events, foundPacked, saidPacked };
}
