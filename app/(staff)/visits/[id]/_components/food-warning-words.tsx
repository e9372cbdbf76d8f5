import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { ownText } from '@/lib/core/tablet';
import type { UnitReport } from '@/lib/core/tablet/visit-report';
import { timeIn } from '@/lib/core/calendar/when';

/** How warm the box was, and who was told when. */
export function FoodWarningWords({
  warning: w,
  units,
  timeZone,
}: {
  warning: UnitReport['foodWarnings'][number];
  units: MeasureUnits;
  timeZone: string;
}) {
  return (
    <>
      {ownText('boxK', w.boxK, { temperatureUnit: units.temperature, pressureUnit: units.pressure })}, told to {w.toldTo} at{' '}
      {timeIn(w.toldAt, timeZone)}
      {w.note ? `. ${w.note}` : ''}
    </>
  );
}
