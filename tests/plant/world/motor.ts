import type { Chance } from './chance';

/**
 * What a clamp meter shows of a motor on 115 volts: a current in phase with the voltage for its power, and one across it that magnetises
 * the iron and does not fall with the load. Power factors at the nominal load of 0.62 to 0.92, from small motors without a run capacitor
 * to such with one (from memory); the mains stand 2 % up or down from one visit to the next.
 */
export type Motor = { magnetisingW: number; mains: Chance };

const VOLTS = 115;
const MAINS_SD = 0.02;

export function motorOf(c: Chance, nominalW: number): Motor {
  const factor = c.between(0.62, 0.92);
  return { magnetisingW: nominalW * Math.sqrt(1 / (factor * factor) - 1), mains: c };
}

/** Amperes on one visit; each call is another. */
export function ampsOf({ magnetisingW, mains }: Motor, powerW: number): number {
  const volts = mains.about(MAINS_SD);
  return Math.hypot(powerW / volts, magnetisingW * volts) / VOLTS;
}
