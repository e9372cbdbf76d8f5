'use client';

import { useEffect, useState } from 'react';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { loadRefrigerants, REFRIGERANTS } from '@/lib/core/refrigerants/fleet';
import { BAR_PA, celsiusToKelvin, fahrenheitToKelvin, footToMetre, metreToFoot, PSI_PA, typedNumber } from '@/lib/core/measures';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { Field, Select } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { Answers } from './answers';
import { Cautions } from './cautions';
import { Neighbours } from './neighbours';

type Props = { units: MeasureUnits; refrigerant: string; altitudeM: number };
export type Asked = { by: 'pressure' | 'temperature'; text: string };

const OPTIONS = Object.values(REFRIGERANTS).map((r) => ({ value: r.id, label: `${refrigerantLabel(r.id)}, ${r.safetyClass}` }));
const number = (text: string) => typedNumber(text) ?? NaN;

/** Heights for which the standard atmosphere is taken, m; also true of what is no number. */
const outOfReach = (metres: number) => !(metres >= -430 && metres <= 5000);

function toSi(by: Asked['by'], value: number, units: MeasureUnits): number {
  if (by === 'pressure') return value * (units.pressure === 'psig' ? PSI_PA : BAR_PA);
  return units.temperature === 'F' ? fahrenheitToKelvin(value) : celsiusToKelvin(value);
}

/** Type a pressure, see the temperatures; type a temperature, see the pressures. Works in the browser alone. */
export function LookUp({ units, refrigerant: first, altitudeM }: Props) {
  const feet = units.pressure === 'psig';
  const [refrigerant, setRefrigerant] = useState(first);
  const [altitude, setAltitude] = useState(String(Math.round(feet ? metreToFoot(altitudeM) : altitudeM)));
  const [asked, setAsked] = useState<Asked>({ by: 'temperature', text: units.temperature === 'F' ? '110' : '43' });
  const [loaded, setLoaded] = useState<string | null>(null);
  const [failed, setFailed] = useState(false);

  useEffect(() => {
    let gone = false;
    loadRefrigerants([refrigerant]).then(
      () => !gone && (setLoaded(refrigerant), setFailed(false)),
      () => !gone && setFailed(true),
    );
    return () => {
      gone = true;
    };
  }, [refrigerant]);

  const metres = feet ? footToMetre(number(altitude)) : number(altitude);
  const altitudeError = outOfReach(metres) ? [`Give the altitude, up to ${feet ? '16,400 ft' : '5,000 m'}.`] : undefined;
  const value = number(asked.text);
  const pressureUnit = units.pressure;
  const temperatureUnit = units.temperature === 'F' ? '°F' : '°C';
  const wrong = asked.text.trim() !== '' && !Number.isFinite(value) ? ['Give a number.'] : undefined;
  const ready = loaded === refrigerant && !altitudeError && Number.isFinite(value);
  const si = toSi(asked.by, value, units);

  return (
    <div className="grid grid-cols-1 gap-6 lg:grid-cols-[22rem_minmax(0,1fr)]">
      <Sheet>
        <div className="flex flex-col gap-4">
          <Select
            label="Refrigerant"
            name="refrigerant"
            options={OPTIONS}
            value={refrigerant}
            onChange={(e) => setRefrigerant(e.target.value)}
          />
          <Asking by="pressure" label="Gauge pressure" unit={pressureUnit} asked={asked} wrong={wrong} onAsk={setAsked} />
          <Asking by="temperature" label="Temperature" unit={temperatureUnit} asked={asked} wrong={wrong} onAsk={setAsked} />
          <Field
            label="Altitude"
            unit={feet ? 'ft' : 'm'}
            name="altitude"
            inputMode="numeric"
            autoComplete="off"
            value={altitude}
            onChange={(e) => setAltitude(e.target.value)}
            error={altitudeError}
            hint="The air pressure follows from it (ISO 2533)."
          />
        </div>
      </Sheet>
      <div className="flex flex-col gap-6">
        {failed ? (
          <p role="alert" className="font-bold text-alarm">
            The data of this refrigerant did not arrive. Check the connection and choose it again.
          </p>
        ) : null}
        {ready ? (
          <Answers refrigerant={refrigerant} by={asked.by} si={si} altitudeM={metres} units={units} />
        ) : (
          <Sheet>
            <p className="text-soft">Type a pressure or a temperature.</p>
          </Sheet>
        )}
        <Cautions refrigerant={refrigerant} />
        {ready ? <Neighbours refrigerant={refrigerant} altitudeM={metres} units={units} by={asked.by} si={si} /> : null}
      </div>
    </div>
  );
}

type AskingProps = {
  by: Asked['by'];
  label: string;
  unit: string;
  asked: Asked;
  wrong: string[] | undefined;
  onAsk: (asked: Asked) => void;
};

/** One of the two fields; the other one is worked out. */
function Asking({ by, label, unit, asked, wrong, onAsk }: AskingProps) {
  const own = asked.by === by;
  return (
    <Field
      label={label}
      unit={unit}
      name={by}
      inputMode="decimal"
      autoComplete="off"
      value={own ? asked.text : ''}
      placeholder={own ? '' : 'worked out'}
      onChange={(e) => onAsk({ by, text: e.target.value })}
      error={own ? wrong : undefined}
    />
  );
}
