import { headSdPa } from '../readings/instruments';
import type { CauseId } from '../types';
import { BOX, HOLDS, LOADED_TOO, OFF, ROOM_TO_COIL } from './priors';
import { thermometerOf, type Scene } from './scene';
import { varianceOf, type Solution } from './solve';
import { AIR } from './state';

const normal = (x: number, mean: number, sd: number) => Math.exp(-0.5 * ((x - mean) / sd) ** 2) / sd;
const near = (x: number, [mean, sd]: readonly [number, number], own: number) => normal(x, mean, Math.hypot(sd, own));
const BOX_OWN_SD = 0.6;
/** Where nothing that is read can be trusted. */
const ANY_BOX = [2, 5] as const;
const FAILING_LOW: readonly CauseId[] = ['low_charge', 'evaporator_coil', 'evaporator_fan', 'weak_compressor'];

/** How likely the measured box is under a cause, up to a common factor. An ice machine has no set point to compare. */
export function boxGiven({ reading, unit }: Scene, cause: CauseId): number {
  if (reading.boxK === undefined || unit.kind === 'ice_machine') return 1;
  const off = reading.boxK - unit.boxSetPointK;
  const sound = near(off, BOX.sound, BOX_OWN_SD);
  if (cause === 'high_load') return off > 2 ? near(off, BOX.loaded, BOX_OWN_SD) : 0.02 * sound;
  if (cause === 'nothing') return 0.97 * sound + 0.03 * near(off, BOX.failing, BOX_OWN_SD);
  if (cause === 'reading_fault' || cause === 'not_steady') return 0.6 * sound + 0.4 * near(off, ANY_BOX, BOX_OWN_SD);
  const holds = FAILING_LOW.includes(cause) ? HOLDS.low_side : HOLDS.high_side;
  const failing = near(off, BOX.failing, BOX_OWN_SD);
  return (1 - LOADED_TOO) * (holds * sound + (1 - holds) * failing) + LOADED_TOO * near(off, BOX.loaded, BOX_OWN_SD);
}

/** Coil air against room air, where both were measured. */
export function roomGiven({ reading }: Scene, cause: CauseId): number {
  if (reading.airInK === undefined || reading.roomAirK === undefined) return 1;
  const over = reading.airInK - reading.roomAirK;
  // The same thermometer reads both: what it is always off by cancels.
  const both = thermometerOf(reading);
  const stray = 0.004;
  const [some, much] = ROOM_TO_COIL.round;
  return (
    stray + (cause === 'recirculation' ? 0.5 * (near(over, some, both) + near(over, much, both)) : near(over, ROOM_TO_COIL.usual, both))
  );
}

/** Air at the coil by another thermometer, against the first: alike, unless that one is off (`off`), or the other (three in a hundred). */
export function againGiven({ reading }: Scene, off?: number): number {
  const { airInK, airAgainK } = reading;
  if (airInK === undefined || airAgainK === undefined) return 1;
  const over = airAgainK - airInK;
  const alike = normal(over, 0, Math.SQRT2 * Math.hypot(thermometerOf(reading), 0.4));
  return off === undefined ? 0.97 * alike + 0.03 * normal(over, 0, OFF.airK[0]) : normal(over, off, OFF.airK[1]);
}

/** What gas adds to the standing pressure, as a part of saturation: less than in the running condenser, as it spreads (judgement, agrees with the outside plant, part A). */
const GAS_STANDING = [0.15, 0.09] as const;

/** By how much a solution has the air's thermometer off, and how sure that is, K: it was as far off while the machine stood. */
export function airError({ reading }: Scene, solution: Solution): readonly [number, number] {
  return reading.airInK === undefined ? [0, 0] : [solution.x[AIR]! - reading.airInK, Math.sqrt(varianceOf(solution, AIR))];
}

/**
 * Standing pressure against saturation at the air around it. Air in the system adds its own; lower than saturation says
 * little, as a cold evaporator holds the pressure down. `off`: as `airError` has it.
 */
export function standingGiven(scene: Scene, cause: CauseId, [off, offSd]: readonly [number, number] = [0, 0]): number {
  const { reading, machine, atmospherePa } = scene;
  const air = reading.offCycleAirK;
  if (reading.offCyclePaGauge === undefined || air === undefined) return 1;
  const { fluid } = machine;
  const saturation = Math.exp(fluid.lnDewP(air + fluid.glide(air)));
  const over = (reading.offCyclePaGauge + atmospherePa) / saturation - 1 - machine.beta * off;
  const sd = Math.hypot(headSdPa(reading, scene.unit.refrigerant, reading.offCyclePaGauge) / saturation, 0.02, machine.beta * offSd);
  const low = over < 0 && over > -0.7 ? 0.3 / 0.7 : 0.002;
  if (cause === 'non_condensables') return 0.85 * normal(over, GAS_STANDING[0], Math.hypot(sd, GAS_STANDING[1])) + 0.15 * low;
  return 0.7 * normal(over, 0, sd) + 0.3 * low + 0.002;
}
