import { kilogramToGram, kilogramToOunce } from '@/lib/core/measures/mass';
import { formatQuantity } from '@/lib/core/measures/display';
import { ownText, type Me } from '@/lib/core/tablet';

/** From here on a charge is read in the greater unit: 317.5 oz says nothing to anybody. */
const [MANY_GRAMS, MANY_OUNCES] = [2000, 32];

/** "150 g", "4.500 kg", "5.3 oz", "13 lb 3.6 oz". */
function massWords(kg: number, unit: Me['massUnit']): string {
  const [grams, ounces] = [kilogramToGram(kg), kilogramToOunce(kg)];
  if (unit === 'g') return grams < MANY_GRAMS ? formatQuantity(grams, 0, 'g') : formatQuantity(kg, 3, 'kg');
  if (ounces < MANY_OUNCES) return formatQuantity(ounces, 1, 'oz');
  const tenths = Math.round(ounces * 10);
  return `${Math.floor(tenths / 160)} lb ${formatQuantity((tenths % 160) / 10, 1, 'oz')}`;
}

/** Facts of a unit in the technician's own units. */
export const ownMass = (kg: number, me: Me): string => massWords(kg, me.massUnit);
export const ownPressure = (pa: number, me: Me): string => ownText('headPaGauge', pa, me);
export const ownTemperature = (kelvin: number, me: Me): string => ownText('boxK', kelvin, me);
