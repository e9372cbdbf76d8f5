import type { CompressorMap } from '@/lib/core/condenser/compressor/ten-coefficient';
import { Field, Select, TextArea } from '@/app/_ui/fields/field';

const UNITS = [
  { value: 'F_lb_per_h', label: '°F, lb/h and W' },
  { value: 'C_kg_per_s', label: '°C, kg/s and W' },
];

/** The maker’s compressor map, folded away: few have it, and estimates do without. */
export function MapFields({ map, error }: { map: CompressorMap | null; error: (name: string) => string[] | undefined }) {
  const wrong = ['massFlow', 'power', 'ratedSuperheatK'].some((f) => error(`compressorMap.${f}`));
  return (
    <details open={map !== null || wrong}>
      <summary className="inline-flex min-h-9 items-center font-bold text-cold underline underline-offset-4">Compressor map</summary>
      <div className="mt-2 flex flex-col gap-4">
        <p className="text-sm text-soft">
          Ten coefficients each for mass flow and power, in the order of AHRI 540: 1, S, D, S², SD, D², S³, DS², SD², D³. Estimates use a
          map in place of a typical compressor.
        </p>
        <TextArea
          label="Mass flow"
          name="compressorMap.massFlow"
          rows={2}
          defaultValue={map?.massFlow.join(' ')}
          error={error('compressorMap.massFlow')}
        />
        <TextArea
          label="Power"
          name="compressorMap.power"
          rows={2}
          defaultValue={map?.power.join(' ')}
          error={error('compressorMap.power')}
        />
        <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
          <Select
            label="In units of"
            name="compressorMap.units"
            options={UNITS}
            defaultValue={map?.units ?? 'F_lb_per_h'}
            error={error('compressorMap.units')}
          />
          <Field
            label="Rated superheat"
            unit="K"
            name="compressorMap.ratedSuperheatK"
            inputMode="decimal"
            defaultValue={map?.ratedSuperheatK ?? ''}
            hint="11.1 K (20 °F) when empty."
            error={error('compressorMap.ratedSuperheatK')}
          />
        </div>
      </div>
    </details>
  );
}
