import { Sheet } from '@/app/_ui/page/sheet';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { PART_PLACE_LABEL } from '@/lib/core/parts';
import type { FoodWarningReport, PartReport } from '@/lib/core/tablet/visit-report';
import { FoodWarningWords } from './food-warning-words';

type NameOf = (unitId: string) => string;

/** Every part of the visit, also those of its units. */
export function PartsUsed({ parts, nameOf }: { parts: readonly PartReport[]; nameOf: NameOf }) {
  return (
    <Sheet title="Parts used">
      {parts.length === 0 ? <p className="text-soft">None written down.</p> : null}
      <ul>
        {parts.map((p) => (
          <li key={p.id}>
            {p.quantity} × {p.what}
            {p.place ? <span className="text-soft">, from {PART_PLACE_LABEL[p.place]}</span> : null}
            {p.unitId ? <span className="text-soft">, {nameOf(p.unitId)}</span> : null}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

type FoodProps = { warnings: readonly FoodWarningReport[]; nameOf: NameOf; units: MeasureUnits; timeZone: string };

export function FoodWarnings({ warnings, nameOf, units, timeZone }: FoodProps) {
  if (warnings.length === 0) return null;
  return (
    <Sheet title="Food temperature, told on the spot">
      <ul className="flex flex-col gap-2">
        {warnings.map((w) => (
          <li key={w.id}>
            <b>{nameOf(w.unitId)}:</b> <FoodWarningWords warning={w} units={units} timeZone={timeZone} />
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
