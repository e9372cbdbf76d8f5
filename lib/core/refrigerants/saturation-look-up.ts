import { bubblePressure, bubbleTemperature, dewPressure, dewTemperature, isFailure, type PropertyFailure } from './api';
import { absoluteToGauge, gaugeToAbsolute } from '../measures';

/** One line of a pressure–temperature look-up, SI: the three temperatures have three names and are never mixed. */
export type AtPressure = { bubbleK: number | PropertyFailure; dewK: number | PropertyFailure; meanK: number | null; glideK: number | null };
export type AtTemperature = { bubblePaGauge: number | PropertyFailure; dewPaGauge: number | PropertyFailure };

/** Temperatures at a gauge pressure (Pa above the local atmosphere at `altitudeM`). The refrigerant's data must be loaded. */
export function atPressure(refrigerant: string, paGauge: number, altitudeM: number): AtPressure {
  const p = gaugeToAbsolute(paGauge, altitudeM);
  const bubbleK = bubbleTemperature(refrigerant, p);
  const dewK = dewTemperature(refrigerant, p);
  const both = !isFailure(bubbleK) && !isFailure(dewK);
  return { bubbleK, dewK, meanK: both ? (bubbleK + dewK) / 2 : null, glideK: both ? dewK - bubbleK : null };
}

/** Gauge pressures at a temperature: bubble for the liquid, dew for the vapour. */
export function atTemperature(refrigerant: string, temperatureK: number, altitudeM: number): AtTemperature {
  const gauge = (p: number | PropertyFailure) => (isFailure(p) ? p : absoluteToGauge(p, altitudeM));
  return { bubblePaGauge: gauge(bubblePressure(refrigerant, temperatureK)), dewPaGauge: gauge(dewPressure(refrigerant, temperatureK)) };
}
