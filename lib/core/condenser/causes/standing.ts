import { differenceWords } from '../words/both-units';
import { assumedGauge, gaugeSdPa } from '../readings/instruments';
import { step, type Rule } from './evidence';

/**
 * Standing pressure against saturation at the air around it. Air in the system adds its own pressure. Lower than
 * saturation says little: a cold evaporator holds the pressure down.
 */
export const standing: Rule = ({ reading, model }) => {
  const air = reading.offCycleAirK;
  if (reading.offCyclePaGauge === undefined || air === undefined) return [];
  const p = reading.offCyclePaGauge + model.atmospherePa;
  const saturation = model.fluid.bubbleP(air);
  if (!(saturation > 0)) return [];
  const sd = Math.hypot(gaugeSdPa(reading.gauge ?? assumedGauge(model.fluid.id), reading.offCyclePaGauge), 0.03 * saturation);
  const z = (p - saturation) / sd;
  const over = model.fluid.bubbleT(p) - air;
  if (z > 1)
    return [
      {
        cause: 'non_condensables',
        weight: step(z, 2, 1.5, 5),
        text: `Standing pressure reads ${differenceWords(over)} over saturation at the air`,
      },
      { cause: 'coil_fouling', weight: -step(z, 2, 1.5, 1.5), text: 'Dirt does not raise the standing pressure' },
    ];
  return [{ cause: 'non_condensables', weight: -3, text: 'Standing pressure agrees with saturation at the air' }];
};
