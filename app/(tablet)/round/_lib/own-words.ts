import { kilogramToGram, kilogramToOunce } from '@/lib/core/measures/mass';
import { formatQuantity } from '@/lib/core/measures/display';
import { ownText, type Me } from '@/lib/core/tablet';

/** Facts of a unit in the technician's own units. */
export const ownMass = (kg: number, me: Me): string =>
  me.massUnit === 'g' ? formatQuantity(kilogramToGram(kg), 0, 'g') : formatQuantity(kilogramToOunce(kg), 1, 'oz');
export const ownPressure = (pa: number, me: Me): string => ownText('headPaGauge', pa, me);
export const ownTemperature = (kelvin: number, me: Me): string => ownText('boxK', kelvin, me);
