import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { isFailure, REFRIGERANTS } from '@/lib/core/refrigerants/api';
import { atPressure, atTemperature } from '@/lib/core/refrigerants/saturation-look-up';
import { celsiusToKelvin, fahrenheitToKelvin, formatQuantity } from '@/lib/core/measures';
import { gaugePressureIn, temperatureIn } from '@/app/_ui/figures/measure';
import { Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';

type Props = { refrigerant: string; altitudeM: number; units: MeasureUnits; by: 'pressure' | 'temperature'; si: number };

/** The curve around the asked point, in steps a person would read a chart by. */
export function Neighbours({ refrigerant, altitudeM, units, by, si }: Props) {
  const here = by === 'temperature' ? si : atPressure(refrigerant, si, altitudeM).dewK;
  if (isFailure(here)) return null;
  const t = temperatureIn(units);
  const p = gaugePressureIn(units);
  const step = units.temperature === 'F' ? 5 : 2;
  const middle = Math.round(t.of(here) / step) * step;
  const kelvin = units.temperature === 'F' ? fahrenheitToKelvin : celsiusToKelvin;
  const rows = Array.from({ length: 11 }, (_, i) => middle + (i - 5) * step).map((x) => ({
    x,
    ...atTemperature(refrigerant, kelvin(x), altitudeM),
  }));
  const pure = REFRIGERANTS[refrigerant]?.kind === 'pure';
  const show = (x: (typeof rows)[number]['dewPaGauge']) => (isFailure(x) ? '–' : formatQuantity(p.of(x), 1));
  return (
    <Sheet title="Around it">
      <Table label="Pressure by temperature" className="max-w-md">
        <thead>
          <tr>
            <Th className="text-right">{t.unit}</Th>
            {pure ? (
              <Th className="text-right">{p.unit}</Th>
            ) : (
              <>
                <Th className="text-right">Bubble, {p.unit}</Th>
                <Th className="text-right">Dew, {p.unit}</Th>
              </>
            )}
          </tr>
        </thead>
        <tbody>
          {rows.map((r) => (
            <tr key={r.x} className={r.x === middle ? 'bg-cold-wash font-bold' : ''}>
              <Td className="text-right">{formatQuantity(r.x, 0)}</Td>
              {pure ? null : <Td className="text-right">{show(r.bubblePaGauge)}</Td>}
              <Td className="text-right">{show(r.dewPaGauge)}</Td>
            </tr>
          ))}
        </tbody>
      </Table>
    </Sheet>
  );
}
