import type { ReactNode } from 'react';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { isFailure, REFRIGERANTS, type PropertyFailure } from '@/lib/core/refrigerants/api';
import { atPressure, atTemperature } from '@/lib/core/refrigerants/saturation-look-up';
import { formatQuantity } from '@/lib/core/measures';
import { differenceIn, gaugePressureIn, temperatureIn, type Scale } from '@/app/_ui/figures/measure';
import { Sheet } from '@/app/_ui/page/sheet';

type Props = { refrigerant: string; by: 'pressure' | 'temperature'; si: number; altitudeM: number; units: MeasureUnits };

const show = (x: number | PropertyFailure | null, scale: Scale) =>
  x === null || isFailure(x) ? 'can’t say' : formatQuantity(scale.of(x), 1, scale.unit);
/** A gauge in psig counts below zero in inches of mercury: 1 inHg is 3386.39 Pa. */
const showGauge = (x: number | PropertyFailure, scale: Scale) =>
  `${show(x, scale)}${scale.unit === 'psig' && !isFailure(x) && x < 0 ? ` (${formatQuantity(-x / 3386.39, 1, 'inHg vacuum')})` : ''}`;
const why = (...xs: (number | PropertyFailure)[]) => xs.find(isFailure)?.message;

/** The other side of the curve; for a blend bubble and dew stand apart. */
export function Answers({ refrigerant, by, si, altitudeM, units }: Props) {
  const pure = REFRIGERANTS[refrigerant]?.kind === 'pure';
  if (by === 'pressure') {
    const t = atPressure(refrigerant, si, altitudeM);
    const scale = temperatureIn(units);
    return (
      <Big note={why(t.bubbleK, t.dewK)}>
        {pure ? (
          <Value name="Saturation temperature" text={show(t.dewK, scale)} />
        ) : (
          <>
            <Value name="Bubble, the liquid’s" text={show(t.bubbleK, scale)} />
            <Value name="Dew, the vapour’s" text={show(t.dewK, scale)} />
            <Value name="Mean of the two" text={show(t.meanK, scale)} />
            <Value name="Glide" text={show(t.glideK, differenceIn(units))} />
          </>
        )}
      </Big>
    );
  }
  const p = atTemperature(refrigerant, si, altitudeM);
  const scale = gaugePressureIn(units);
  return (
    <Big note={why(p.bubblePaGauge, p.dewPaGauge)}>
      {pure ? (
        <Value name="Saturation pressure" text={showGauge(p.dewPaGauge, scale)} />
      ) : (
        <>
          <Value name="Bubble, the liquid’s" text={showGauge(p.bubblePaGauge, scale)} />
          <Value name="Dew, the vapour’s" text={showGauge(p.dewPaGauge, scale)} />
        </>
      )}
    </Big>
  );
}

function Big({ children, note }: { children: ReactNode; note?: string }) {
  return (
    <Sheet>
      <dl role="status" className="flex flex-wrap gap-x-10 gap-y-4">
        {children}
      </dl>
      {note ? <p className="mt-3 font-bold text-alarm">{note}.</p> : null}
    </Sheet>
  );
}

const Value = ({ name, text }: { name: string; text: string }) => (
  <div>
    <dt className="text-soft">{name}</dt>
    <dd className="text-3xl font-bold">{text}</dd>
  </div>
);
