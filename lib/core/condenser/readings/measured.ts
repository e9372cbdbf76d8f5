import { Z80, figure } from '../bands';
import type { Scene } from '../inference/scene';
import { condensingOf } from '../inference/scene';
import { AIR } from '../inference/state';
import type { Measured, Reading } from '../types';
import { BEND_SHORTFALL_SD_K, CONTACT_SD_K, headSdPa, THERMOMETER_SD_K } from './instruments';
import { scatterSd } from './steadiness';

export type MeasuredSides = Measured;

/** Condensing and rise as the instruments show them, each with its own error; null outside the refrigerant's range. */
export function measuredOf(scene: Scene): MeasuredSides | null {
  const { reading, machine, atmospherePa, sound } = scene;
  const { fluid } = machine;
  const condensing = condensingOf(machine, reading, atmospherePa);
  if (!(condensing > fluid.loK && condensing < fluid.hiK + 4)) return null;
  const dew = condensing + fluid.glide(condensing) / 2;
  const own = reading.headPaGauge === undefined ? clampSd(reading) : gaugeSd(scene, dew);
  const sd = Math.hypot(own, scatterSd(reading));
  const riseSd = Math.hypot(sd, sound.sd[AIR] ?? 0);
  const rise = condensing - (sound.mean[AIR] ?? NaN);
  const band = (value: number, s: number) => figure(value, value - Z80 * s, value + Z80 * s);
  return { condensingK: band(condensing, sd), condensingDewK: band(dew, sd), riseK: band(rise, riseSd) };
}

function clampSd(reading: Reading): number {
  return Math.hypot(reading.thermometerSdK ?? THERMOMETER_SD_K, CONTACT_SD_K, BEND_SHORTFALL_SD_K);
}

function gaugeSd({ reading, machine, unit }: Scene, dew: number): number {
  const pa = headSdPa(reading, unit.refrigerant, reading.headPaGauge ?? 0);
  return pa / (Math.exp(machine.fluid.lnDewP(dew)) * machine.beta);
}

/** How a reading was taken, as far as errors that stay with the unit depend on it. */
export function meansOf(reading: Reading): string {
  const parts = [
    reading.headPaGauge === undefined ? 'clamp' : 'gauge',
    reading.airInK === undefined ? 'room air' : 'coil air',
    reading.suctionPaGauge === undefined ? 'no suction' : 'suction',
    reading.liquidLineK === undefined ? 'no liquid' : 'liquid',
  ];
  return parts.join(', ');
}
