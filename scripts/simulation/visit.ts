import { addDays, localDate, type LocalDate } from '../../lib/core/calendar';
import { GRADES, type CoilGrade } from '../../lib/core/findings/grades';
import type { Phase, UnitEvent } from '../../lib/core/fouling';
import type { RandomStream } from '../../lib/core/numerics/random';
import { deposit, wash, type Coil, type Technician, type TrueUnit } from './world';

export const FIRST_DAY = localDate('2023-01-02');
export const dateOf = (day: number): LocalDate => addDays(FIRST_DAY, day);

/** Deposits at which the world's people step from grade to grade; each shifts them a little by eye. */
const STEPS = [0.05, 0.15, 0.32, 0.6];

export function judged(y: number, eye: number, s: RandomStream): CoilGrade {
  const seen = y + eye + s.normal(0, 0.045);
  return (GRADES.coil[STEPS.filter((c) => seen > c).length] as { grade: CoilGrade }).grade;
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

/** A visit that cleans: what is written down, with the coil cleaned. `foundPacked` is what an exact eye would have said. */
export function cleaningVisit(
  c: Coil,
  unit: TrueUnit,
  day: number,
  fanDead: boolean,
  technician: Technician,
  s: RandomStream,
  deep: boolean,
): { events: UnitEvent[]; foundPacked: boolean } {
  const on = dateOf(day);
  const events: UnitEvent[] = [];
  const foundPacked = deposit(c) >= (STEPS[3] as number);
  if (fanDead && s.chance(0.85)) events.push({ kind: 'fan', on, grade: 'failed' }, { kind: 'fan', on, grade: 'sound' });
  if (s.chance(0.92)) events.push({ kind: 'coil', on, grade: judged(deposit(c), technician.eye, s), phase: 'before' });
  if (s.chance(0.5)) events.push(reading(deposit(c), unit, fanDead, on, 'before', s));
  wash(c, unit, technician, s, deep);
  events.push({ kind: 'cleaning', on, deep });
  if (s.chance(0.6)) events.push({ kind: 'coil', on, grade: judged(deposit(c), technician.eye, s), phase: 'after' });
  if (s.chance(0.4)) events.push(reading(deposit(c), unit, false, on, 'after', s));
  return { events, foundPacked };
}
